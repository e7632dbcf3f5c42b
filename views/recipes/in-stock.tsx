import type { Decimal } from "decimal.js";
import { stateWords } from "../buckets/types.ts";

export type ShownStock = {
  bucket: {
    id: string;
    name: string;
    number: number;
    is: "open" | "hold" | "empty";
    mayUse: { food: boolean; decorative: boolean };
  };
  litres: Decimal;
};

/** The buckets of a recipe that something is in, and whether one may glaze with them now. */
export const InStock = ({ stock }: { stock: readonly ShownStock[] }) =>
  stock.length === 0 ? null : (
    <p>
      In stock:{" "}
      {stock.map(({ bucket, litres }, place) => (
        <>
          {place > 0 ? "; " : null}
          <a href={`/buckets/${bucket.id}`}>{bucket.name}</a>, revision {bucket.number},{" "}
          {litres.toFixed()} l, {stateWords[bucket.is]}: {mayWords(bucket.mayUse)}
        </>
      ))}
      .
    </p>
  );

function mayWords({ food, decorative }: ShownStock["bucket"]["mayUse"]): string {
  if (food) return "may be used as its revision is approved, for functional ware";
  return decorative ? "may be used on decorative ware only" : "not to be used now";
}
