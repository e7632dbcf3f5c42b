import type { Child } from "hono/jsx";
import type { z } from "zod";
import { HandoutPage } from "../../views/handouts/page.tsx";
import type { ShownHandout } from "../../views/handouts/types.ts";
import { answer } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import { type HandoutQuery, ownBody } from "../wire/handout-query.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { handoutCsv } from "./handout-csv.ts";
import { handoutJson } from "./handout-json.ts";
import { readOwn } from "./handout-own.ts";
import { restatePieces } from "./handout-restating.ts";
import { type HandoutSource, readHandout } from "./handout-sheet.ts";
import { unsolved } from "./solved.ts";

/** What may be shown of a page of a handout besides it. */
export type Around = {
  /** The page stands alone, for whoever holds a link. */
  alone: boolean;
  /** Where its forms go, without what was asked. */
  address: string;
  /** Where a link to it is made, for who may make one. */
  linkAt: string | null;
  back: { href: string; name: string } | null;
  /** The revision that was asked for. */
  revision?: number | undefined;
};

/** What was asked of a handout: an empty region means the studio's own names. */
export function askedOf<Schema extends z.ZodObject>(c: Ctx, schema: Schema) {
  const query = Object.entries(c.req.query()).filter(([key, value]) => value || key === "region");
  return check(schema, Object.fromEntries(query));
}

/** A handout as its page, JSON or CSV; or what is wrong with what was asked. */
export async function answerHandout(
  c: Ctx,
  source: HandoutSource,
  around: Around,
  asked: { kind: "read"; value: HandoutQuery } | { kind: "refused"; faults: Fault[] },
) {
  const read = await readHandout(c, source, asked.kind === "read" ? asked.value : {});
  const faults = [...(asked.kind === "refused" ? asked.faults : []), ...read.faults];
  const shown = pageOf(c, { handout: read.handout, around, faults, typed: {} });
  if (faults.length > 0) return faulty(c, { faults }, shown);
  if (asked.kind === "read" && asked.value.format === "csv") return csvOf(c, read.handout);
  return answer(c, { json: () => handoutJson(read.handout), ...shown });
}

function csvOf(c: Ctx, handout: ShownHandout) {
  const day = handout.asOf.toISOString().slice(0, 10);
  return c.body(handoutCsv(handout), 200, {
    "Content-Type": "text/csv; charset=utf-8",
    "Content-Disposition": `attachment; filename="handout-${day}.csv"`,
  });
}

/** The same with each recipe restated from the reader's own powders; nothing of it is kept. */
export async function answerRestated(
  c: Ctx,
  source: HandoutSource,
  around: Around,
  asked: { kind: "read"; value: HandoutQuery } | { kind: "refused"; faults: Fault[] },
) {
  const read = await readHandout(c, source, asked.kind === "read" ? asked.value : {});
  const body = await readBody(c, ownBody);
  const { handout } = read;
  const again = (faults: readonly Fault[]) =>
    pageOf(c, { handout, around, faults, typed: body.typed });
  const before = [...(asked.kind === "refused" ? asked.faults : []), ...read.faults];
  if (body.kind === "refused")
    return faulty(
      c,
      { ...body, faults: [...before, ...body.faults] },
      again([...before, ...body.faults]),
    );
  const own = readOwn(body.value.own, handout.powders);
  const faults = [...before, ...(own.kind === "faulty" ? own.faults : [])];
  if (own.kind === "faulty" || faults.length > 0) return faulty(c, { faults }, again(faults));
  const restated = await restatePieces(c, read.pieces, own.own);
  if (restated.kind === "unsolved") return unsolved(c, restated.solved);
  const pieces = handout.pieces.map((piece, at) => ({
    ...piece,
    restated: restated.pieces[at]?.shown,
  }));
  const whole = { ...handout, pieces };
  return answer(c, {
    json: () =>
      handoutJson(
        whole,
        restated.pieces.map((each) => each.answer),
      ),
    ...pageOf(c, { handout: whole, around, faults: [], typed: body.typed }),
  });
}

type Shown = {
  handout: ShownHandout;
  around: Around;
  faults: readonly Fault[];
  typed: Typed;
};

function pageOf(c: Ctx, { handout, around, faults, typed }: Shown) {
  const { alone } = around;
  const query = c.req.query();
  return {
    page: { title: `Handout: ${handout.name}`, here: alone ? "none" : "library", alone } as const,
    view: (): Child =>
      HandoutPage({
        handout,
        faults,
        ...around,
        asked: { ...query, ...(query.tub === undefined && { tub: handout.tub.toFixed() }) },
        own: {
          rows: Array.isArray(typed.own) ? typed.own.length : 0,
          text: (path) => typedText(typed, path),
        },
      }),
  };
}
