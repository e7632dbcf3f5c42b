import { Hono } from "hono";
import { mostLines } from "../chem/request-faults.ts";
import { tickLine, undoTick } from "../db/mix-ticking.ts";
import type { MixTick } from "../db/mixes.ts";
import { changed, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { tickBody, undoBody } from "../wire/mix-body.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { mixJson } from "./mix-json.ts";
import { mixNow, mixPage, mixToChange, sheetOf } from "./mix-sheet.ts";

export const mixLines = new Hono<Env>();

mixLines.on(
  ["PUT", "POST"],
  "/mixes/:id/lines/:n",
  described({
    says: "Say what went in of a line, and out of which lot; sent twice with one key it counts once",
    body: tickBody,
  }),
  memberRequired,
  async (c) => {
    const place = await placeOf(c);
    if (!place) return notFound(c);
    const { mixId, n, again } = place;
    const read = await readBody(c, tickBody);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults, read.typed));

    if (isSomebodyElse(c, read.value)) return refuse(c, notTheirs);
    const { grams, lot: lotId = null, key, adds } = read.value;
    const ticked = await tickLine(c.var.db, { mixId, n, grams, lotId, key, adds, ...actOf(c) });
    const refused = async (path: string, says: string) => {
      const faults = [{ path, says }];
      return faulty(c, { faults }, await again(faults, read.typed));
    };
    switch (ticked.kind) {
      case "no-line":
        return notFound(c);
      case "not-its-lot":
        return refused("lot", "This is no lot of the material of this line.");
      case "recalled":
        return refused("lot", `This lot is recalled: do not use it. ${ticked.why}`);
      case "other-content":
        return refused(
          "key",
          "This key came before with something else in it. Open the mix again.",
        );
      case "ended":
        return conflict(c, endedWords(ticked.is), again, read.typed);
      case "in-already":
        return conflict(c, inAlreadyWords(ticked.ticks), again, read.typed);
      case "ticked":
        return shown(c, mixId, n);
    }
  },
);

const undoing = described({
  says: "Take a tick of a line back: the one of that key, or the newest that stands",
  body: undoBody,
});

const undo = async (c: Ctx) => {
  const place = await placeOf(c);
  if (!place) return notFound(c);
  const { mixId, n, again } = place;
  const read = await readBody(c, undoBody);
  if (read.kind === "refused") return faulty(c, read, await again(read.faults, {}));
  if (isSomebodyElse(c, read.value)) return refuse(c, notTheirs);
  const undone = await undoTick(c.var.db, { mixId, n, key: read.value.key, ...actOf(c) });
  switch (undone.kind) {
    case "no-line":
      return notFound(c);
    case "no-such-tick": {
      const faults = [{ path: "key", says: "Nothing went in of this line by that key." }];
      return faulty(c, { faults }, await again(faults, {}));
    }
    case "nothing-in":
      return conflict(c, "Nothing is in of this line.", again, {});
    case "ended":
      return conflict(c, endedWords(undone.is), again, {});
    case "undone":
      return shown(c, mixId, n);
  }
};

mixLines.delete("/mixes/:id/lines/:n", undoing, memberRequired, undo);
mixLines.post("/mixes/:id/lines/:n/undo", undoing, memberRequired, undo);

type Again = (
  faults: readonly Fault[],
  typed: Typed,
) => Promise<Awaited<ReturnType<typeof mixPage>>>;

type Place = { mixId: string; n: number; again: Again };

/** The line that an address names, of a mix that the reader may know of, and its page with what was typed. */
async function placeOf(c: Ctx): Promise<Place | undefined> {
  const mix = await mixToChange(c);
  const n = Number(c.req.param("n"));
  if (!mix || !Number.isInteger(n) || n < 1 || n > mostLines) return undefined;
  const again: Again = async (faults, typed) =>
    mixPage(c, await sheetOf(c, await mixNow(c)), {
      faults: faults.map(({ path, says }) => ({ path: path && `lines.${n}.${path}`, says })),
      line: { n, grams: typedText(typed, "grams"), lot: typedText(typed, "lot") },
    });
  return { mixId: mix.id, n, again };
}

const isSomebodyElse = (c: Ctx, { person }: { person?: string | undefined }): boolean =>
  person !== undefined && person !== memberOf(c).id;

const notTheirs = {
  status: 403,
  type: "/problems/somebody-else",
  title: "Somebody else is signed in",
  detail: "This is sent when whoever put it down is signed in again.",
} as const;

/** The mix with what was done, or for a form back to the line. */
async function shown(c: Ctx, mixId: string, n: number) {
  const json = wantsJson(c) ? await jsonNow(c) : undefined;
  return changed(c, `/mixes/${mixId}#line-${n}`, json);
}

const jsonNow = async (c: Ctx) => mixJson(await sheetOf(c, await mixNow(c)));

async function conflict(c: Ctx, detail: string, again: Again, typed: Typed) {
  const given = await again([{ path: "", says: detail }], typed);
  const more = wantsJson(c) ? { mix: await jsonNow(c) } : undefined;
  return refuse(c, { status: 409, title: "Not as you saw it", detail, more }, given);
}

const endedWords = (is: string): string => `This mix is ${is}: nothing more goes in.`;

/** Who put how much in, oldest first, and what can be done. */
function inAlreadyWords(ticks: readonly MixTick[]): string {
  const said = ticks.map(({ by, grams }) => `${by.name} put ${grams.toFixed()} g in`);
  return `${said.join(", ")}. If yours comes on top, say so; if not, nothing is to be done.`;
}
