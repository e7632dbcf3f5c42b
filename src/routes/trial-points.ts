import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { TrialPointPage, type TrialPointPageProps } from "../../views/trials/point.tsx";
import { trialMark } from "../chem/tile-marks.ts";
import { findBody, listBodies } from "../db/bodies.ts";
import { findFiring, listFirings } from "../db/firings.ts";
import { tileDefects } from "../db/tiles.ts";
import { addTrialResult } from "../db/trial-results.ts";
import { answer, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line, text } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { pointJson, resultJson } from "./trial-json.ts";
import { type ReadTrial, readTrial } from "./trial-reading.ts";

export const trialPoints = new Hono<Env>();

export type ReadPlace = { trial: ReadTrial; point: ReadTrial["points"][number] };

/** The point at an address, where the reader may know of its trial. */
export async function readPoint(
  c: Ctx,
  { id, n }: { id: string; n: string | number },
): Promise<ReadPlace | undefined> {
  const trial = await readTrial(c, id);
  const point = trial?.points.find((each) => String(each.n) === String(n));
  return trial && point && { trial, point };
}

trialPoints.get(
  "/:id/points/:n",
  described({ says: "One point of a trial: its recipe, its chemistry, and what came of it" }),
  memberRequired,
  async (c) => {
    const place = await readPoint(c, c.req.param());
    if (!place) return notFound(c);
    const { page, view } = await pointSheet(c, place);
    return answer(c, { json: () => pointJson(place.trial, place.point), page, view });
  },
);

const defect = z.enum(tileDefects);

const resultBody = z.strictObject({
  /** By its slug. */
  body: line(80).optional(),
  firing: line(40).optional(),
  cone: cone.optional(),
  surface: line(60, 0).default(""),
  /** One ticked box of a form arrives by itself. */
  defects: z
    .union([z.array(defect).max(tileDefects.length), defect.transform((one) => [one])], {
      error: `A list of: ${tileDefects.join(", ")}.`,
    })
    .default([]),
  remark: text(2000, 0).default(""),
  idempotencyKey,
});

trialPoints.post(
  "/:id/points/:n/results",
  described({ says: "Put down what came of a point in the fire", body: resultBody, status: 201 }),
  memberRequired,
  async (c) => {
    const place = await readPoint(c, c.req.param());
    if (!place) return notFound(c);
    const { trial, point } = place;
    const read = await readBody(c, resultBody);
    const again = async (faults: readonly Fault[]) =>
      pointSheet(c, place, { faults, typed: (path) => typedText(read.typed, path) });
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));
    const { body: slug, firing: firingId, idempotencyKey: _, ...seen } = read.value;
    const body = slug === undefined ? null : await findBody(c.var.db, { slug });
    const firing = firingId === undefined ? null : await findFiring(c.var.db, { id: firingId });
    const faults: Fault[] = [];
    if (body === undefined)
      faults.push({ path: "body", says: "There is no such body. Put it on record first." });
    if (firing === undefined)
      faults.push({ path: "firing", says: "There is no such firing. Put it on record first." });
    const { surface, defects, remark } = seen;
    if (faults.length === 0 && ![surface, remark, ...defects].some((said) => said !== ""))
      faults.push({
        path: "surface",
        says: "Say what came of it: its surface, a defect or a remark.",
      });
    if (faults.length > 0) return faulty(c, { faults }, await again(faults));
    const id = await addTrialResult(c.var.db, {
      trialId: trial.id,
      n: point.n,
      bodyId: body?.id ?? null,
      firingId: firing?.id ?? null,
      cone: seen.cone ?? null,
      surface,
      defects,
      remark,
      ...actOf(c),
    });
    const now = await readPoint(c, c.req.param());
    const one = now?.point.results.find((result) => result.id === id);
    return created(c, `/trials/${trial.id}/points/${point.n}`, one && resultJson(one));
  },
);

/** Who put it down, and a manager. */
export const mayWithdraw = ({ var: { viewer } }: Ctx, { by }: { by: { id: string } }): boolean =>
  viewer !== undefined && (viewer.role === "manager" || viewer.id === by.id);

/** A point's page, with what was typed on it and what is wrong with that. */
export async function pointSheet(
  c: Ctx,
  { trial, point }: ReadPlace,
  more: Partial<Pick<TrialPointPageProps, "faults" | "typed" | "withdrawing">> = {},
) {
  const bodies = await listBodies(c.var.db);
  const { items: firings } = await listFirings(c.var.db);
  return {
    page: { title: `${trialMark(trial, point.n)} of ${trial.name}`, here: "kiln" as const },
    view: () =>
      TrialPointPage({
        trial,
        point,
        bodies,
        firings: firings.filter(({ kind, withdrawn }) => kind !== "bisque" && !withdrawn),
        defects: tileDefects,
        faults: [],
        typed: () => "",
        idempotencyKey: uuidv7(),
        mayWithdraw: (result) => mayWithdraw(c, result),
        ...more,
      }),
  };
}
