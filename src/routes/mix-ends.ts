import { Hono } from "hono";
import { type Ended, finishMix, giveUpMix } from "../db/mix-ends.ts";
import { changed } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { finishBody, givingUpBody } from "../wire/mix-body.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { mixJson } from "./mix-json.ts";
import { mayEnd, mixNow, mixPage, mixToChange, sheetOf } from "./mix-sheet.ts";

export const mixEnds = new Hono<Env>();

mixEnds.on(
  ["PUT", "POST"],
  "/mixes/:id/finish",
  described({
    says: "Finish a mix in which every line is; its bucket is on hold until a proof tile is fired",
    body: finishBody,
  }),
  memberRequired,
  async (c) => {
    const mix = await mixToChange(c);
    if (!mix) return notFound(c);
    if (!mayEnd(c, mix)) return notAllowed(c, notYours, await pageAgain(c, [], {}));
    const read = await readBody(c, finishBody);
    if (read.kind === "refused")
      return faulty(c, read, await pageAgain(c, read.faults, read.typed));
    const { waterGrams } = read.value;
    const ended = await finishMix(c.var.db, { mixId: mix.id, waterGrams, ...actOf(c) });
    return answerOf(c, ended, read.typed);
  },
);

mixEnds.on(
  ["PUT", "POST"],
  "/mixes/:id/giving-up",
  described({
    says: "Give a mix up; what went in stays taken from its lots, unless it is undone",
    body: givingUpBody,
  }),
  memberRequired,
  async (c) => {
    const mix = await mixToChange(c);
    if (!mix) return notFound(c);
    if (!mayEnd(c, mix)) return notAllowed(c, notYours, await pageAgain(c, [], {}));
    const read = await readBody(c, givingUpBody);
    if (read.kind === "refused")
      return faulty(c, read, await pageAgain(c, read.faults, read.typed));
    const { why } = read.value;
    const ended = await giveUpMix(c.var.db, { mixId: mix.id, why, ...actOf(c) });
    return answerOf(c, ended, read.typed);
  },
);

const notYours = "Whoever opened the mix ends it, or a manager.";

const pageAgain = async (c: Ctx, faults: readonly Fault[], typed: Typed) =>
  mixPage(c, await sheetOf(c, await mixNow(c)), {
    faults,
    ends: { waterGrams: typedText(typed, "waterGrams"), why: typedText(typed, "why") },
  });

async function answerOf(c: Ctx, ended: Ended, typed: Typed) {
  switch (ended.kind) {
    case "not-all-in": {
      const faults = ended.lines.map(({ n, material, grams }) => ({
        path: `lines.${n}.grams`,
        says: `${material.name} is not in yet: ${grams.toFixed()} g.`,
      }));
      return faulty(c, { faults }, await pageAgain(c, faults, typed));
    }
    case "ended-otherwise": {
      const { is, by } = ended.end;
      const detail = `This mix is ${is} already, by ${by}.`;
      const given = await pageAgain(c, [{ path: "", says: detail }], typed);
      return refuse(c, { status: 409, title: "Ended already", detail }, given);
    }
    case "ended": {
      const mix = await mixNow(c);
      return changed(c, `/mixes/${mix.id}`, mixJson(await sheetOf(c, mix)));
    }
  }
}
