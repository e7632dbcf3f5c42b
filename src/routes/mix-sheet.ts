import type { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { MixPage } from "../../views/mixes/page.tsx";
import type { MixPageProps } from "../../views/mixes/types.ts";
import { moveWords } from "../chem/move-words.ts";
import { findDirections } from "../db/bucket-directions.ts";
import { type MixState, mixStateOf } from "../db/mix-chemistry.ts";
import { type CoarseLine, findCoarse } from "../db/mix-coarse.ts";
import { listMixLots, type MixLot } from "../db/mix-lots.ts";
import { type FoundMix, findMix, findMixOpener } from "../db/mixes.ts";
import { findRevisions } from "../db/revisions.ts";
import { type Ctx, memberOf } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { cautionsOf, offAt } from "./mix-json.ts";

/** A mix with all that its page and its JSON tell. */
export type MixSheet = {
  mix: FoundMix;
  /** Of its materials, the oldest first. */
  lots: MixLot[];
  /** By the number of the line. */
  coarse: Map<number, CoarseLine>;
  state: MixState;
  tolerancePercent: Decimal;
};

/** The mix that an address names, where the reader may know of it. */
export const mixAt = (c: Ctx): Promise<FoundMix | undefined> =>
  findMix(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

/** That it is there, for what changes it and reads it afterwards. */
export const mixToChange = (c: Ctx) =>
  findMixOpener(c.var.db, { id: c.req.param("id") ?? "", reader: c.var.viewer });

/** The mix of an address that was found to be there. */
export async function mixNow(c: Ctx): Promise<FoundMix> {
  const mix = await mixAt(c);
  if (!mix) throw new Error("the mix was found through its reader's scope");
  return mix;
}

/** Whoever opened it, and a manager. */
export const mayEnd = (c: Ctx, { by }: { by: { id: string } }): boolean =>
  memberOf(c).role === "manager" || by.id === memberOf(c).id;

/** A mix with what belongs to it beside its own rows. */
export async function sheetOf(c: Ctx, mix: FoundMix): Promise<MixSheet> {
  const { db, studio, now } = c.var;
  const tolerancePercent = studio.mixTolerancePercent;
  const used = mix.lines.flatMap(({ ticks }) => ticks.flatMap(({ lot }) => lot?.id ?? []));
  return {
    mix,
    lots: await listMixLots(db, {
      materialIds: mix.lines.map(({ material }) => material.id),
      used: new Set(used),
      today: now.toISOString().slice(0, 10),
    }),
    coarse: await findCoarse(db, mix),
    state: await mixStateOf(db, mix, tolerancePercent),
    tolerancePercent,
  };
}

type Shown = {
  faults: readonly Fault[];
  line?: MixPageProps["typedLine"];
  ends?: MixPageProps["typedEnds"];
};

/** The page of a mix, with what was typed still in its forms. */
export async function mixPage(c: Ctx, sheet: MixSheet, shown: Shown = { faults: [] }) {
  const { mix, state } = sheet;
  const { db } = c.var;
  const [revision] = await findRevisions(db, [mix.revisionId]);
  const directions = (await findDirections(db, [mix.bucket.id])).get(mix.bucket.id);
  return {
    page: { title: `Mix: ${mix.bucket.name}`, here: "buckets" as const },
    view: () =>
      MixPage({
        mix,
        person: memberOf(c).name,
        asOf: c.var.now,
        lines: shownLines(sheet),
        tolerancePercent: sheet.tolerancePercent,
        cautions: cautionsOf(sheet),
        correction: state.correction,
        slurry: state.slurry,
        chemistry: state.chemistry && {
          differences: state.chemistry.differences,
          moves: state.chemistry.moves.map(moveWords),
        },
        handling: revision?.chemistry.handling ?? [],
        directions,
        mayEnd: mayEnd(c, mix),
        faults: shown.faults,
        typedLine: shown.line,
        typedEnds: shown.ends,
      }),
  };
}

const shownLines = ({ mix, lots, coarse, state }: MixSheet): MixPageProps["lines"] =>
  mix.lines.map((line) => ({
    ...line,
    lots: lots.filter(({ materialId }) => materialId === line.material.id),
    coarse: coarse.get(line.n),
    off: offAt(state, line.n),
    key: uuidv7(),
  }));
