import { differenceWords } from "../../views/compare/words.ts";
import {
  chemistryWords,
  correctionWords,
  notDeducted,
  notThisLotWords,
} from "../../views/mixes/words.ts";
import { moveWords } from "../chem/move-words.ts";
import type { MixState } from "../db/mix-chemistry.ts";
import type { MixLot } from "../db/mix-lots.ts";
import type { FoundMix, MixLine, MixTick } from "../db/mixes.ts";
import type { MixSheet } from "./mix-sheet.ts";

/** A mix as its own address tells it. */
export const mixJson = (sheet: MixSheet) => {
  const { mix, tolerancePercent, state } = sheet;
  return {
    ...headJson(mix),
    scaleGrams: mix.scaleGrams.toFixed(),
    tolerancePercent: tolerancePercent.toFixed(),
    cautions: cautionsOf(sheet),
    lines: mix.lines.map((line) => lineJson(line, sheet)),
    correction: correctionJson(mix, state),
    chemistry: chemistryJson(state),
    notThisLot: state.notThisLot,
  };
};

/** A mix as the bucket that it went into lists it. */
export const pastMixJson = (mix: FoundMix) => ({
  ...headJson(mix),
  lots: usedLots(mix).map(({ material, grams, lot }) => ({
    material: { slug: material.slug, name: material.name },
    grams: grams.toFixed(),
    lot: bagJson(lot),
  })),
});

const headJson = (mix: FoundMix) => ({
  id: mix.id,
  bucket: { id: mix.bucket.id, name: mix.bucket.name },
  recipe: mix.recipe,
  revision: mix.revision,
  is: mix.end?.is ?? ("open" as const),
  baseGrams: mix.baseGrams.toFixed(),
  totalGrams: mix.totalGrams.toFixed(),
  putGrams: mix.putGrams.toFixed(),
  waterGrams: mix.waterGrams?.toFixed() ?? null,
  by: mix.by,
  at: mix.at,
  end: mix.end && { ...mix.end, waterGrams: mix.end.waterGrams?.toFixed() ?? null },
});

/** What is in of a mix, by the bags that it came out of. */
export const usedLots = ({ lines }: FoundMix) =>
  lines.flatMap(({ material, ticks }) =>
    ticks.flatMap(({ undone, grams, lot }) => (undone ? [] : [{ material, grams, lot }])),
  );

function lineJson(line: MixLine, { lots, coarse, state }: MixSheet) {
  const { n, part, material, grams, runningGrams, put, ticks } = line;
  const tooCoarse = coarse.get(n);
  const off = offAt(state, n);
  return {
    n,
    part,
    material: { slug: material.slug, name: material.name },
    grams: grams.toFixed(),
    runningGrams: runningGrams.toFixed(),
    ...(tooCoarse && {
      coarse: {
        percent: tooCoarse.percent.toNumber(),
        smallestGrams: tooCoarse.smallestGrams.toFixed(),
      },
    }),
    hazards: material.hazards,
    put: { grams: put?.toFixed() ?? null, ticks: ticks.map(tickJson) },
    ...(off && { offPercent: off.toNumber() }),
    lots: lots.filter(({ materialId }) => materialId === material.id).map(lotJson),
  };
}

const tickJson = ({ id, key, grams, lot, by, at, undone }: MixTick) => ({
  id,
  key,
  grams: grams.toFixed(),
  lot: bagJson(lot),
  ...(lot === null && { says: notDeducted }),
  by,
  at,
  ...(undone && { undone }),
});

const bagJson = (lot: MixTick["lot"]) =>
  lot && { id: lot.id, mark: lot.mark, supplier: lot.supplier };

const lotJson = ({ id, mark, supplier, leftGrams, recalled, expired }: MixLot) => ({
  id,
  mark,
  supplier,
  leftGrams: leftGrams.toFixed(),
  ...(recalled !== null && { recalled }),
  ...(expired && { expired }),
});

/** How far a line is off, where it is off by more than may be. */
export const offAt = ({ correction }: MixState, n: number) =>
  correction.kind === "within"
    ? undefined
    : correction.off.find(({ line }) => line + 1 === n)?.percent;

/** What to see to before anything else: bags that are past their day or hold less than was taken. */
export function cautionsOf({ mix, lots, state }: MixSheet): string[] {
  const used = new Set(usedLots(mix).flatMap(({ lot }) => lot?.id ?? []));
  const name = ({ materialId }: MixLot) =>
    mix.lines.find(({ material }) => material.id === materialId)?.material.name ?? "";
  const called = (lot: MixLot) =>
    lot.mark ? `the lot ${lot.mark} of ${name(lot)}` : `a lot of ${name(lot)}`;
  const ofLots = lots
    .filter(({ id }) => used.has(id))
    .flatMap((lot) => [
      ...(lot.recalled === null
        ? []
        : [`Recalled since: ${called(lot)} is in here. Do not use the bucket. ${lot.recalled}`]),
      ...(lot.leftGrams.isNegative()
        ? [`More was taken of ${called(lot)} than is on record: count it.`]
        : []),
      ...(lot.expired ? [`Past its day: ${called(lot)}. Look at it before you rely on it.`] : []),
    ]);
  return state.notThisLot.length === 0 ? ofLots : [...ofLots, notThisLotWords(state.notThisLot)];
}

function correctionJson({ lines }: FoundMix, { correction, slurry }: MixState) {
  if (correction.kind === "within") return null;
  const says = correctionWords(lines, correction, slurry);
  if (correction.kind === "cannot") return { possible: false as const, says };
  return {
    possible: true as const,
    factor: correction.factor.toNumber(),
    lines: correction.lines.map(({ more, grams }, place) => ({
      n: place + 1,
      moreGrams: more.toFixed(),
      grams: grams.toFixed(),
    })),
    totalGrams: correction.totalGrams.toFixed(),
    waterGrams: slurry?.waterGrams.toFixed() ?? null,
    litres: slurry?.litres.toDecimalPlaces(1).toNumber() ?? null,
    fits: slurry?.fits ?? null,
    says,
  };
}

function chemistryJson({ chemistry }: MixState) {
  if (!chemistry) return null;
  const moves = chemistry.moves.map(moveWords);
  return {
    differences: chemistry.differences.map((difference) => ({
      ...difference,
      says: differenceWords(difference),
    })),
    moves,
    endsApproval: moves.length > 0,
    says: chemistryWords(moves),
  };
}
