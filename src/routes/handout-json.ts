import type { ShownHandout, ShownPiece, ShownPowder } from "../../views/handouts/types.ts";
import { exactGrams } from "../chem/batch-amounts.ts";
import { toFahrenheit } from "../chem/cone-tables.ts";
import type { Cone } from "../chem/cones.ts";
import { coneCelsius } from "../chem/cones.ts";
import type { RestatedAnswer } from "./restate-json.ts";

type Temperature = ShownHandout["temperature"];

/** A handout as JSON: weights as decimal strings, computed quantities as numbers; names, no ids. */
export function handoutJson(
  handout: ShownHandout,
  answers: readonly (RestatedAnswer | null)[] | undefined = undefined,
) {
  const { family, name, asOf, madeAt, region, weight, temperature, tub, leftOut } = handout;
  return {
    studio: handout.studio,
    name,
    ...(family && { family }),
    asOf: asOf.toISOString(),
    madeAt: madeAt?.toISOString() ?? null,
    ...{ region, regions: handout.regions, weight, temperature, tub: tub.toFixed(), leftOut },
    recipes: handout.pieces.map((piece, at) => pieceJson(piece, handout, answers?.[at])),
    powders: handout.powders.map((powder) => powderJson(powder, handout)),
    ...(family && {
      shelf: handout.shelf.map(({ slug, name: material, percents }) => ({
        material: slug,
        name: material,
        percents,
      })),
    }),
  };
}

export type HandoutJson = ReturnType<typeof handoutJson>;

function pieceJson(
  piece: ShownPiece,
  { temperature, photosAt }: Pick<ShownHandout, "temperature" | "photosAt">,
  answer: RestatedAnswer | null | undefined,
) {
  const { recipe, standing, test, tub } = piece;
  const inGrams = (weight: typeof tub.base) => exactGrams(weight, tub.unit).toFixed();
  return {
    name: recipe.name,
    maker: recipe.owner.name,
    revision: piece.number,
    publishedAt: piece.publishedAt.toISOString(),
    ...{ use: piece.use, surface: piece.surface, about: piece.about, standing },
    mayUse: piece.mayUse,
    newer: piece.newer,
    recalled: piece.recalled,
    cones: {
      low: coneJson(piece.cones.low, temperature),
      high: coneJson(piece.cones.high, temperature),
    },
    atmosphere: piece.atmosphere,
    lines: piece.lines.map((line) => ({
      ...{ material: line.slug, name: line.name, part: line.part },
      amount: line.amount.toFixed(),
      percentOfBase: line.percent.toDecimalPlaces(6).toFixed(),
      testGrams: line.testGrams.toFixed(),
      tub: line.tub.toFixed(),
      tubGrams: inGrams(line.tub),
    })),
    test: { baseGrams: test.baseGrams.toFixed(), totalGrams: test.totalGrams.toFixed() },
    tub: {
      ...{ unit: tub.unit, base: tub.base.toFixed(), total: tub.total.toFixed() },
      totalGrams: inGrams(tub.total),
    },
    coarse: piece.coarse,
    chemistry: piece.chemistry,
    tiles: piece.tiles.map((tile) => tileJson(tile, photosAt)),
    tests: piece.tests.map(testJson),
    ...{ withdrawn: piece.withdrawn, untested: piece.untested, overlaps: piece.pairs },
    hazards: piece.hazards,
    ...(answer !== undefined && {
      restated: answer,
      restatedSays: restatedSays(piece.restated),
    }),
  };
}

/** What a restated recipe is, and is not: it begins anew as a draft. */
function restatedSays(restated: ShownPiece["restated"]): string {
  if (!restated) return "";
  if (restated.kind !== "mix") return restated.says;
  const draft = "It is a draft, and needs tiles of its own.";
  return restated.status === "exact"
    ? `The same unity formula from other powders. ${draft}`
    : `Not the same glaze: the nearest from these powders. ${draft}`;
}

function coneJson(cone: Cone, temperature: Temperature) {
  const heat = coneCelsius(cone);
  if (!heat) return { cone, temperature: null };
  const { celsius, rate, series } = heat;
  const inF = temperature === "F";
  return {
    cone,
    temperature: {
      unit: temperature,
      value: Math.round(inF ? toFahrenheit(celsius) : celsius),
      rate: inF ? (rate * 9) / 5 : rate,
      series,
    },
  };
}

function tileJson(tile: ShownPiece["tiles"][number], photosAt: string) {
  const { cone, atmosphere, clay, bisqueCone, firing, firedOn, surface, defects, remark } = tile;
  return {
    ...{ revision: tile.number, cone, atmosphere, clay, body: tile.body?.name ?? null, bisqueCone },
    firedOn: firing?.startedAt.toISOString().slice(0, 10) ?? firedOn,
    witness: firing && firing.withdrawnWhy === null ? firing.witness : [],
    thicknessMm: tile.thicknessMm?.toFixed() ?? null,
    ...{ application: tile.application, coats: tile.coats },
    seconds: tile.seconds?.toFixed() ?? null,
    specificGravity: tile.specificGravity?.toFixed() ?? null,
    ...{ surface, transparency: tile.transparency, movement: tile.movement, defects, remark },
    layered: tile.layered,
    over: tile.over?.name ?? null,
    photos: tile.photos.map(({ sha256, alt, width, height, removed }) => ({
      ...{ alt, width, height, removed, at: removed ? null : `${photosAt}/${sha256}/full` },
    })),
  };
}

const testJson = (test: ShownPiece["tests"][number]) => ({
  ...{ kind: test.kind, outcome: test.outcome, method: test.method, laboratory: test.laboratory },
  ...{ articleClass: test.articleClass, report: test.report, remark: test.remark },
  on: test.at.toISOString().slice(0, 10),
  tile:
    test.tile && test.tile !== "unknown"
      ? { cone: test.tile.cone, clay: test.tile.clay, layered: test.tile.layered }
      : null,
  results: test.results.map(({ value, detectionLimit, ...result }) => ({
    ...result,
    value: value.toFixed(),
    detectionLimit: detectionLimit?.toFixed() ?? null,
  })),
  limits: test.limits?.judged.map(({ says }) => says) ?? [],
});

const powderJson = (powder: ShownPowder, { weight }: Pick<ShownHandout, "weight">) => ({
  ...{ material: powder.slug, name: powder.name, stillSold: powder.stillSold },
  ...(powder.called !== undefined && { called: powder.called }),
  ...{ elsewhere: powder.elsewhere, lookAlikes: powder.lookAlikes },
  analyses: powder.analyses,
  withoutAnalysisIn: powder.unknownIn,
  buy: {
    testGrams: powder.buy.testGrams.toFixed(),
    tub: powder.buy.tub.toFixed(),
    unit: weight,
  },
});
