import type { Oxide } from "./oxides.ts";
import {
  answeredBy,
  costMean,
  expansionMean,
  holdableModels,
  lossMean,
  type Mean,
  type MeanEnds,
  unityMean,
} from "./restate-means.ts";
import { listed } from "./shelf-words.ts";

/** What is made smallest once the misses are: the weight of the batch, or a figure of the base. */
export type Preference = "weight" | "loss" | "cost" | "expansion";

/** What has to hold of the base as a whole. All plain data. */
export type BaseConditions = {
  /** The most that the base may lose on ignition, percent. */
  mostLoss?: number | undefined;
  /** The fired base's expansion by one of the models that can be held, linear 1e-6/K. */
  expansion?: { model: string; least?: number | undefined; most?: number | undefined } | undefined;
  /** The most that a kilogram of the base may cost. */
  mostCost?: number | undefined;
  prefer?: Preference | undefined;
  /** Oxides of the unity formula, moles, each between two ends. */
  held?: Partial<Record<Oxide, { least: number; most: number }>> | undefined;
};

/** A condition by the field that asks for it, and how it is called. */
export type BaseCondition = {
  field: "mostLoss" | "expansion" | "mostCost" | "held";
  called: string;
  ends: MeanEnds[];
};

/** The conditions that are asked for, each with the means that it holds. */
export function conditionsOf({
  mostLoss,
  expansion,
  mostCost,
  prefer,
  held = {},
}: BaseConditions): BaseCondition[] {
  const conditions: BaseCondition[] = [];
  if (mostLoss !== undefined)
    conditions.push({
      field: "mostLoss",
      called: "the limit on the loss",
      ends: [{ mean: lossMean, most: mostLoss }],
    });
  const counts = expansion?.least !== undefined || expansion?.most !== undefined;
  if (expansion && (counts || prefer === "expansion")) {
    const model = modelOf(expansion.model);
    const { least, most } = expansion;
    conditions.push({
      field: "expansion",
      called: "what is asked of the expansion",
      ends: [{ mean: expansionMean(model), least, most }, ...answeredBy(model)],
    });
  }
  if (mostCost !== undefined)
    conditions.push({
      field: "mostCost",
      called: "the limit on the cost",
      ends: [{ mean: costMean, most: mostCost }],
    });
  const oxides = Object.keys(held) as Oxide[];
  if (oxides.length > 0)
    conditions.push({
      field: "held",
      called: `the hold on ${listed(oxides)}`,
      ends: oxides.map((oxide) => ({ mean: unityMean(oxide), ...held[oxide] })),
    });
  return conditions;
}

/** The figure that is preferred small; undefined for the weight of the batch, which is none. */
export function preferredMean({ prefer, expansion }: BaseConditions): Mean | undefined {
  switch (prefer) {
    case "loss":
      return lossMean;
    case "cost":
      return costMean;
    case "expansion":
      return expansion && expansionMean(modelOf(expansion.model));
    default:
      return undefined;
  }
}

function modelOf(id: string) {
  const model = holdableModels.find((each) => each.id === id);
  if (!model) throw new Error(`${id} cannot be held`);
  return model;
}
