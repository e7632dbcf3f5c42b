import { mainOxides } from "../../views/materials/main-oxides.ts";
import { type Analysis, type Figure, powderOf } from "../chem/analysis.ts";
import { pricePerGram } from "../chem/cost.ts";
import { usedPercent } from "../chem/stock-line.ts";
import type { RecordedAnalysis } from "../db/analyses.ts";
import type { FoundLot } from "../db/lots.ts";
import type { AnalysisIs, MaterialSheet } from "../db/material-sheets.ts";
import type { PriceThen } from "../db/price-history.ts";
import type { ShelfEntry } from "../db/shelf.ts";

/** A material as the list of the shelf tells it. */
export const entryJson = ({ slug, name, region, kind, names, inUse, ...entry }: ShelfEntry) => ({
  slug,
  name,
  region,
  kind,
  names: names.map((elsewhere) => ({ name: elsewhere.name, region: elsewhere.region })),
  brings: inUse ? mainOxides(inUse.analysis) : [],
  hazards: entry.hazards,
  stillSold: entry.stillSold,
});

/** A material with all that its page tells. */
export function materialJson(sheet: MaterialSheet) {
  const { analyses, putInUse, discontinued, uses } = sheet;
  const inUse = analyses.find(({ is }) => is === "in use");
  return {
    slug: sheet.slug,
    name: sheet.name,
    region: sheet.region,
    kind: sheet.kind,
    about: sheet.about,
    hazards: sheet.hazards,
    addedAt: sheet.addedAt,
    addedBy: sheet.addedBy,
    names: sheet.names,
    lookAlikes: sheet.lookAlikes,
    analysisInUse: inUse ? analysisJson(inUse) : null,
    putInUse: putInUse && { since: putInUse.since, by: putInUse.by, why: putInUse.why },
    analyses: analyses.map(analysisJson),
    stillSold: sheet.stillSold,
    discontinued: discontinued && {
      since: discontinued.since,
      why: discontinued.why,
      by: discontinued.by,
      at: discontinued.at,
    },
    usedIn: uses.recipes,
    usedInMore: uses.more,
    lots: sheet.lots?.map(lotJson) ?? null,
    prices: sheet.prices?.map(priceThenJson) ?? null,
    dryGravity: sheet.dryGravity && {
      ...sheet.dryGravity,
      gravity: sheet.dryGravity.gravity.toFixed(),
    },
    dataSheet: sheet.dataSheet,
  };
}

const priceThenJson = ({ packGrams, packPrice, currency, ...price }: PriceThen) => ({
  ...price,
  packGrams: packGrams.toFixed(),
  packPrice: packPrice.toFixed(),
  currency,
  pricePerKilogram: pricePerGram({ packGrams, packPrice, currency })
    .times(1000)
    .toDecimalPlaces(4)
    .toFixed(),
});

/** A lot with what a kilogram of it cost and what is left. Without an analysis of its own it says so. */
export const lotJson = (lot: FoundLot) => ({
  id: lot.id,
  supplier: lot.supplier,
  analysis: lot.analysis,
  analysisIs: lot.analysis ? "this lot's" : "not this lot's analysis",
  packGrams: lot.packGrams.toFixed(),
  packPrice: lot.packPrice.toFixed(),
  currency: lot.currency,
  pricePerKilogram: pricePerGram(lot).times(1000).toDecimalPlaces(4).toFixed(),
  grams: lot.grams.toFixed(),
  mark: lot.mark,
  bestBefore: lot.bestBefore,
  leftGrams: lot.leftGrams.toFixed(),
  usedPercent: usedPercent(lot.grams, lot.leftGrams)?.toDecimalPlaces(1).toNumber() ?? null,
  recalls: lot.recalls,
  by: lot.by,
  at: lot.at,
});

/** An analysis as it was given, and `asWeighed` as the chemistry takes it: numbers, percent, k = 2. */
export function analysisJson(row: RecordedAnalysis & { is: AnalysisIs }) {
  const { analysis } = row;
  return {
    id: row.id,
    digest: row.digest,
    is: row.is,
    source: row.source,
    measuredOn: row.measuredOn,
    addedAt: row.addedAt,
    addedBy: row.addedBy,
    basis: analysis.basis,
    formula: row.formula,
    ideal: analysis.ideal ?? false,
    oxides: Object.fromEntries(
      Object.entries(analysis.oxides).map(([oxide, given]) => [oxide, figureJson(given)]),
    ),
    lossOnIgnition: analysis.lossOnIgnition ? figureJson(analysis.lossOnIgnition) : null,
    asWeighed: asWeighedJson(analysis),
  };
}

const figureJson = ({ percent, plusMinus }: Figure) => ({
  percent: percent.toFixed(),
  ...(plusMinus && { plusMinus: plusMinus.toFixed() }),
});

function asWeighedJson(analysis: Analysis) {
  const powder = powderOf(analysis);
  const quantities = powder.listed.map((oxide, place) => {
    const plusMinus = powder.ownPlusMinus[place] ?? 0;
    const assumed = powder.assumed.includes(oxide);
    return [oxide, { value: powder.percent[place] ?? 0, plusMinus, assumed }];
  });
  return {
    unit: "percent of the powder",
    oxides: Object.fromEntries(quantities),
    lossOnIgnition: {
      value: powder.loss,
      plusMinus: powder.lossIs === "given" ? powder.lossPlusMinus : null,
      is: powder.lossIs,
      assumed: powder.lossIs !== "given" || powder.lossPlusMinusAssumed,
    },
    unaccounted: powder.unaccounted,
  };
}
