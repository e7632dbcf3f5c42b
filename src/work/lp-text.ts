import { Decimal } from "decimal.js";
import type { LpModel, LpRow } from "./lp.ts";

/**
 * A model in the LP text format, under names of its own (x0, x1, r0), so that no name of a powder
 * can be taken for a word of the format. Numbers are plain decimals that read back as the same
 * float64, and a row with two ends is two rows, since readers of the format differ on those.
 *
 * @returns the text, and for each row of the text the index of the model's row it stands for. A row
 *   without a coefficient is left out: it holds or not whatever the variables are.
 */
export function lpText(model: LpModel): { text: string; rowOf: number[] } {
  const place = new Map(model.variables.map(({ name }, at) => [name, `x${at}`]));
  const term = (name: string, coefficient: number): string => {
    const own = place.get(name);
    if (!own) throw new Error(`no variable ${name}`);
    return `${coefficient < 0 ? "-" : "+"} ${plain(Math.abs(coefficient))} ${own}`;
  };
  const rowOf: number[] = [];
  const rows: string[] = [];
  model.rows.forEach((row, at) => {
    const terms = termsOf(row).map(([name, coefficient]) => term(name, coefficient));
    if (terms.length === 0) return;
    for (const end of ends(row)) {
      rows.push(` r${rows.length}: ${terms.join("\n  ")} ${end}`);
      rowOf.push(at);
    }
  });
  // Every variable stands in the objective, so that the solver counts them in the model's order.
  const objective = model.variables.map(({ name }) => term(name, model.minimise[name] ?? 0));
  const bounds = model.variables.map(({ least = 0, most = Infinity }, at) =>
    least === -Infinity && most === Infinity
      ? ` x${at} free`
      : ` ${bound(least)} <= x${at} <= ${bound(most)}`,
  );
  const whole = model.variables.flatMap(({ integer }, at) => (integer ? [` x${at}`] : []));
  const text = [
    "Minimize",
    ` obj: ${objective.join("\n  ")}`,
    "Subject To",
    ...rows,
    "Bounds",
    ...bounds,
    ...(whole.length > 0 ? ["Generals", ...whole] : []),
    "End",
    "",
  ].join("\n");
  return { text, rowOf };
}

/** The coefficients of a row that are not 0. */
export const termsOf = ({ coefficients }: LpRow): [string, number][] =>
  Object.entries(coefficients).filter(([, coefficient]) => coefficient !== 0);

function ends({ least = -Infinity, most = Infinity }: LpRow): string[] {
  if (least === most) return [`= ${plain(least)}`];
  return [
    ...(least === -Infinity ? [] : [`>= ${plain(least)}`]),
    ...(most === Infinity ? [] : [`<= ${plain(most)}`]),
  ];
}

const bound = (value: number): string =>
  Math.abs(value) === Infinity ? (value < 0 ? "-inf" : "inf") : plain(value);

/** The shortest plain decimal that reads back as the same float64, at most 17 digits that count. */
const plain = (value: number): string => {
  if (!Number.isFinite(value)) throw new Error(`${value} cannot stand in a model`);
  return new Decimal(value).toFixed();
};
