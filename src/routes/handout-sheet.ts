import { Decimal } from "decimal.js";
import type { ShownHandout, ShownLine, ShownPiece } from "../../views/handouts/types.ts";
import { mayUseOf, newerWords } from "../../views/handouts/words.ts";
import { hazards } from "../../views/parts/hazard-words.ts";
import { batchSheet, type Coarse } from "../chem/batch.ts";
import type { WeightUnit } from "../chem/batch-amounts.ts";
import { coverageOf } from "../chem/family-shelf.ts";
import { tubOf, usualTub } from "../chem/tub.ts";
import { untestedOf } from "../chem/untested.ts";
import { type Piece, readPieces } from "../db/handout-pieces.ts";
import { listRegions } from "../db/names-in-region.ts";
import { testKinds } from "../db/tests.ts";
import type { Ctx } from "../wire/context.ts";
import type { HandoutQuery } from "../wire/handout-query.ts";
import type { Fault } from "../wire/problems.tsx";
import { handoutPowders } from "./handout-powders.ts";
import { faultsOfRegion } from "./restate-powders.ts";
import { withLimits } from "./test-limits.ts";

/** What is handed out, and to whom. */
export type HandoutSource = {
  family: { name: string; intro: string } | null;
  revisionIds: readonly string[];
  /** The region that it opens with. */
  region: string;
  madeAt: Date | null;
  leftOut: string | null;
  photosAt: string;
  /** Whether the reader may read the recipes themselves, and not only what was handed out. */
  inside: boolean;
};

export type ReadHandout = { handout: ShownHandout; pieces: Piece[]; faults: Fault[] };

const testGrams = new Decimal(100);

/** The step that a test is weighed in. */
const testStep = new Decimal("0.01");

/**
 * A handout as it stands now, in the reader's words and measures. With faults it is there as it is
 * usual, for the page that says what is wrong.
 */
export async function readHandout(
  c: Ctx,
  source: HandoutSource,
  asked: HandoutQuery,
): Promise<ReadHandout> {
  const { db, now, studio } = c.var;
  const { revisionIds, inside } = source;
  const showsPublic = inside || studio.showsPublic;
  const pieces = await readPieces(db, { revisionIds, showsPublic, now });
  const regions = await listRegions(db);
  const { weight, temperature, region } = readAs(c, source, asked);
  const { tub = usualTub[weight] } = asked;
  const faults = region === "" ? [] : faultsOfRegion({ region }, regions);
  const wrongTub = pieces.flatMap(({ revision }) => {
    const weighed = tubOf(revision.lines, { base: tub, unit: weight });
    return weighed.kind === "refused" ? weighed.faults : [];
  });
  const size = wrongTub.length > 0 ? usualTub[weight] : tub;
  const shown = pieces.map((piece, at) =>
    pieceOf(c, piece, { at, size, weight, open: inside || isOpen(c, piece) }),
  );
  const known = faults.length > 0 ? "" : region;
  const coverage = coverageOf(
    pieces.map(({ recipe, revision }) => ({
      label: recipe.id,
      lines: revision.lines.map(({ part, amount, material }) => ({
        ...{ part, amount, label: material.slug, name: material.name },
      })),
    })),
  );
  return {
    pieces,
    faults: [...faults, ...wrongTub.slice(0, 1)],
    handout: {
      studio: studio.name,
      family: source.family,
      name: source.family?.name ?? shown[0]?.recipe.name ?? "",
      asOf: now,
      madeAt: source.madeAt,
      ...{ region: known, regions, weight, temperature, tub: size },
      pieces: shown,
      powders: await handoutPowders(db, pieces, { coverage, region: known, size, weight }),
      shelf: coverage
        .filter(({ part }) => part === "base")
        .map(({ label, name, percents }) => ({
          ...{ slug: label, name },
          percents: pieces.map(({ recipe }) => {
            const own = percents.find((each) => each.recipe === recipe.id)?.percent;
            return own ? own.toDecimalPlaces(2, Decimal.ROUND_HALF_UP).toFixed() : null;
          }),
        })),
      leftOut: source.leftOut,
      photosAt: source.photosAt,
    },
  };
}

/** As it was asked for, as it was handed out, or as whoever reads it reads every page. */
function readAs({ var: { reading } }: Ctx, source: HandoutSource, asked: HandoutQuery) {
  const usual = reading.weight === "lb" ? ("lb" as const) : ("kg" as const);
  const { weight = usual, temperature = reading.temperature } = asked;
  return { weight, temperature, region: asked.region ?? (source.region || reading.region) };
}

/** Whether somebody outside may read the recipe, with all its revisions. */
const isOpen = ({ var: { studio } }: Ctx, { recipe }: Piece): boolean =>
  studio.showsPublic && recipe.shownTo === "public";

type Sized = { at: number; size: Decimal; weight: WeightUnit; open: boolean };

function pieceOf(c: Ctx, piece: Piece, { at, size, weight, open }: Sized): ShownPiece {
  const { recipe, revision, standing, tiles, tests } = piece;
  const { cones, atmosphere, use, chemistry } = revision;
  const { is, for: approvedFor } = standing;
  // What ended an approval may name other recipes; why this one was withdrawn is for everybody.
  const because = open || is === "withdrawn" ? standing.because : [];
  const leachElements = [...new Set(chemistry.findings.flatMap(({ elements = [] }) => elements))];
  const known = new Set(revision.lines.flatMap(({ material }) => material.hazards));
  return {
    key: `piece-${at + 1}`,
    recipe: { slug: recipe.slug, name: recipe.name, owner: { name: recipe.owner.name } },
    number: revision.number,
    publishedAt: revision.publishedAt,
    ...{ use, cones, atmosphere, surface: revision.surface, about: revision.about },
    standing: { is, for: approvedFor, because },
    mayUse: mayUseOf(use, standing),
    newer: piece.newer && newerWords(piece.newer, { open, owner: recipe.owner.name }),
    recalled: piece.recalled > 0,
    ...weightsOf(piece, { size, weight }),
    chemistry,
    tiles,
    tests: tests.map((test) => withLimits(c, test)),
    withdrawn: piece.withdrawn,
    untested: untestedOf({ cones, atmosphere, leachElements }, { tiles, tests, kinds: testKinds }),
    pairs: piece.pairs.map(({ over, under, about, standing: of }) => ({
      over: { name: over.name, number: over.number },
      under: { name: under.name, number: under.number },
      about,
      standing: { is: of.is, for: of.for },
    })),
    hazards: hazards.filter((hazard) => known.has(hazard)),
  };
}

/** What to weigh for a test and for a tub, each column adding up to its printed total. */
function weightsOf(
  { revision: { lines } }: Piece,
  { size, weight }: Pick<Sized, "size" | "weight">,
): Pick<ShownPiece, "lines" | "test" | "tub" | "coarse"> {
  const test = batchSheet({ lines, grams: testGrams, scaleGrams: testStep });
  const tub = tubOf(lines, { base: size, unit: weight });
  if (test.kind === "refused" || tub.kind === "refused")
    throw new Error("a published recipe can be weighed");
  const base = lines
    .filter(({ part }) => part === "base")
    .reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
  return {
    lines: lines.map(
      ({ part, amount, material }, at): ShownLine => ({
        slug: material.slug,
        name: material.name,
        part,
        amount,
        percent: amount.times(100).div(base),
        testGrams: test.lines[at]?.grams ?? new Decimal(0),
        tub: tub.lines[at]?.weight ?? new Decimal(0),
      }),
    ),
    test: { baseGrams: test.baseGrams, totalGrams: test.totalGrams },
    tub: { base: tub.base, total: tub.total, unit: weight },
    coarse: [
      ...test.coarse.map((each) => coarseWords(lines, each, "the test", "g")),
      ...tub.coarse.map((each) => coarseWords(lines, each, "the tub", weight)),
    ],
  };
}

const coarseWords = (
  lines: Piece["revision"]["lines"],
  { line, percent, smallestGrams }: Coarse,
  what: string,
  unit: WeightUnit,
): string =>
  `${lines[line]?.material.name}: rounded for ${what} it is ${percent.toDecimalPlaces(1).toFixed()} % off; from ${smallestGrams.toFixed()} ${unit} of base it is within 2 %.`;
