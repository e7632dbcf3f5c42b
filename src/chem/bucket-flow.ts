import type { Decimal } from "decimal.js";
import { bandWords, isAbove, isBelow } from "./bands.ts";
import type { BucketAdvice, BucketTarget } from "./bucket-advice.ts";

/** How a slurry runs and lies: seconds through the cup, millimetres of a dried coat. */
export type FlowState = {
  stirred: boolean;
  flowSeconds: Decimal | null;
  coatMm: Decimal | null;
};

/**
 * What to do with a bucket whose gravity is right and whose flow or coat is not: never water.
 * Undefined where nothing is out of its band. Common practice, no source.
 */
export function flowAdvice(
  { flowSeconds, coatMm }: FlowState,
  { flow, coat }: BucketTarget,
): BucketAdvice | undefined {
  if (flow && flowSeconds && isAbove(flowSeconds, flow))
    return notByWater(
      `It takes ${flowSeconds} s, over ${bandWords(flow)} s, at the right gravity: do not add water. Stir in a deflocculant, two or three drops in 10 litres at a time, measure again after each, and write it down.`,
      harsh,
    );
  if (flow && flowSeconds && isBelow(flowSeconds, flow))
    return notByWater(
      `It takes ${flowSeconds} s, under ${bandWords(flow)} s, at the right gravity: do not add water. Stir in a flocculant, a few drops of a strong solution in 10 litres at a time, measure again after each, and write it down.`,
      harsh,
    );
  if (coat && coatMm && isAbove(coatMm, coat))
    return notByWater(
      `The coat is ${coatMm} mm, over ${bandWords(coat)} mm, and the bucket is right: do not add water. Dip for a shorter time, and see whether the bisque was fired lower.`,
    );
  if (coat && coatMm && isBelow(coatMm, coat))
    return notByWater(
      `The coat is ${coatMm} mm, under ${bandWords(coat)} mm, and the bucket is right: do not add water. Dip for longer, and see whether the bisque was fired higher.`,
    );
  if (flow && !flowSeconds)
    return {
      kind: "right",
      says: [
        "Its gravity is right. Measure the flow too: gravity alone does not tell how it runs.",
      ],
      cautions: [],
    };
  return undefined;
}

const notByWater = (says: string, ...cautions: string[]): BucketAdvice => ({
  kind: "do not add water",
  says: [says],
  cautions,
});

const harsh =
  "Deflocculants and flocculants can burn eyes and skin, sodium silicate and acids above all: gloves and goggles, and the supplier's safety data sheet first.";
