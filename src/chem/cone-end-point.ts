import type { ConeRow, ConeTable, EndPoint } from "./cone-tables.ts";

/** `outside`: no held figure lies on the far side of the rate. `remembered`: one used was not seen in print. */
export type EndPointAtRate = {
  cone: string;
  celsius: number;
  outside: boolean;
  remembered: boolean;
};

/** Below this share in a mean a figure plays no part: float64 noise in a rate brings in more. */
const noShare = 1e-6;

/**
 * Where each cone of a table ends at a heating rate over the last 100 °C: linear in ln(rate)
 * between the rates of the table, at the nearest rate outside them. Cones without any figure are
 * left out. A table without rates is outside everywhere.
 *
 * @param rate °C/h, above 0.
 *
 * Worked number: self-supporting cone 6 at 100 °C/h: 1222 + (1243 − 1222) × ln(100/60)/ln(150/60)
 * is 1233.7 °C.
 */
export const endPointsAt = (table: ConeTable, rate: number): EndPointAtRate[] =>
  table.rows.flatMap((row) => endPointAt(table, row, rate) ?? []);

type Known = EndPoint & { logRate: number };

function endPointAt({ rates }: ConeTable, row: ConeRow, rate: number): EndPointAtRate | undefined {
  const known = row.endPoints.flatMap((endPoint, at): Known[] =>
    endPoint ? [{ ...endPoint, logRate: Math.log(rates[at] ?? Number.NaN) }] : [],
  );
  const [slowest, fastest] = [known[0], known.at(-1)];
  if (!slowest || !fastest) return undefined;
  const { cone } = row;
  const logRate = Math.log(rate);
  const only = (one: Known, outside: boolean): EndPointAtRate => ({
    cone,
    celsius: one.celsius,
    outside,
    remembered: one.how === "from memory",
  });
  if (rates.length === 0) return only(slowest, true);
  if (logRate <= slowest.logRate + noShare)
    return only(slowest, logRate < slowest.logRate - noShare);
  if (logRate >= fastest.logRate - noShare)
    return only(fastest, logRate > fastest.logRate + noShare);
  const above = known.findIndex((each) => each.logRate >= logRate);
  return between(cone, known[above - 1] ?? slowest, known[above] ?? fastest, logRate);
}

function between(cone: string, slow: Known, fast: Known, logRate: number): EndPointAtRate {
  const share = (logRate - slow.logRate) / (fast.logRate - slow.logRate);
  return {
    cone,
    celsius: slow.celsius + share * (fast.celsius - slow.celsius),
    outside: false,
    remembered:
      (slow.how === "from memory" && share < 1 - noShare) ||
      (fast.how === "from memory" && share > noShare),
  };
}
