import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { BlendPage, type BlendPageProps } from "../../views/blends/page.tsx";
import { type BlendPoint, blendKinds, mostPoints, pointsOf } from "../chem/blends.ts";
import { type Chemistry, workOut } from "../chem/chemistry.ts";
import { listMaterialNames } from "../db/materials.ts";
import { page, wantsJson } from "../wire/answers.tsx";
import { type BlendBody, blendBody } from "../wire/blend-body.ts";
import { check, readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { readBlend } from "./blend-reading.ts";
import type { SentLine } from "./sent-lines.ts";

export const blends = new Hono<Env>();

const asked = z.object({ kind: z.enum(blendKinds).optional() });

blends.get(
  "/",
  described({ says: "The kinds of blends, and a page to work one out", query: asked }),
  readerRequired,
  async (c) => {
    if (wantsJson(c)) return c.json({ kinds: blendKinds, mostPoints });
    const read = check(asked, c.req.query());
    const kind = (read.kind === "read" && read.value.kind) || "ladder";
    const { page: where, view } = await blendSheet(c, { kind });
    return page(c, where, view);
  },
);

blends.post(
  "/",
  described({
    says: "The points of a ladder, line, triaxial or grid, each with its lines and its chemistry",
    body: blendBody,
  }),
  readerRequired,
  async (c) => {
    const read = await readBody(c, blendBody);
    if (read.kind === "refused")
      return faulty(c, read, await blendSheet(c, read.typed, read.faults));
    const found = await readBlend(c, read.value);
    if (found.kind === "faulty")
      return faulty(c, found, await blendSheet(c, read.typed, found.faults));
    const points = workedOut(pointsOf(found.blend), read.value, dayOf(c.var.now));
    if (wantsJson(c)) return c.json({ points: points.map(pointJson) });
    const { page: where, view } = await blendSheet(c, read.typed, [], points);
    return page(c, where, view);
  },
);

export const dayOf = (moment: Date): string => moment.toISOString().slice(0, 10);

type WorkedOut = BlendPoint<SentLine> & { chemistry: Chemistry };

function workedOut(
  points: readonly BlendPoint<SentLine>[],
  { unity, iron, boron, cone, use }: BlendBody,
  today: string,
): WorkedOut[] {
  const asked = { unity, iron, boron, cone, use, today };
  return points.map((point) => ({
    ...point,
    chemistry: workOut({ lines: point.lines, ...asked }),
  }));
}

const pointJson = ({ n, at, lines, chemistry }: WorkedOut) => ({
  n,
  at,
  lines: lines.map(({ material, part, amount }) => ({ material, part, amount: amount.toFixed() })),
  chemistry,
});

/** The form with what was typed still in it, and the points where they are worked out. */
export async function blendSheet(
  c: Ctx,
  typed: Typed,
  faults: readonly Fault[] = [],
  points: BlendPageProps["points"] = [],
) {
  const materialNames = await listMaterialNames(c.var.db);
  const kind = blendKinds.find((each) => each === typed.kind) ?? "ladder";
  return {
    page: { title: "Blends", here: "work-it-out" } as const,
    view: () =>
      BlendPage({
        kind,
        typed: (path) => typedText(typed, path),
        faults,
        points,
        materialNames,
        mayKeep: c.var.viewer !== undefined,
        idempotencyKey: uuidv7(),
      }),
  };
}
