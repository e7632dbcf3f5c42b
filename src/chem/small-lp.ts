/**
 * Rows `coefficients · x ≤ most` over columns x ≥ 0, and what each column costs, never below 0. All
 * float64, of about the same size, a few dozen either way.
 */
export type SmallLp = {
  readonly rows: readonly { readonly coefficients: ArrayLike<number>; readonly most: number }[];
  readonly costs: ArrayLike<number>;
};

/**
 * `best` is a cheapest x. `none` carries the proof: weights ≥ 0 of the rows whose sum asks of some
 * columns, none of them below 0, to be less than nothing. `stuck` never came up in practice: it is
 * there so that a slip of float64 is never taken for an answer.
 */
export type SmallAnswer =
  | { kind: "best"; x: Float64Array }
  | { kind: "none"; weights: Float64Array }
  | { kind: "stuck" };

/** How far a row may be missed; rows here are moles in a unity formula. */
export const rowTolerance = 1e-9;

/** A coefficient below this is float64 noise and is no pivot. */
const noise = 1e-11;

/** From here on the rows are taken in a fixed order, which ends for certain. */
const patience = 200;

/**
 * The dual simplex method on a condensed tableau: since no cost is below 0, all slacks make a start
 * that is too cheap, and each step mends the row that is missed most. For a few dozen rows that takes
 * microseconds, where handing the model to a solver takes a millisecond. Equal input, equal output.
 *
 * Source: C. E. Lemke, "The dual method of solving the linear programming problem", Naval Research
 * Logistics Quarterly 1 (1954) 36–47.
 *
 * Worked number: 2a + b ≥ 3 and a ≤ 1 at a cost of 1 and 1 is best at a = 1, b = 1.
 */
export function solveSmall({ rows, costs }: SmallLp): SmallAnswer {
  const [height, width] = [rows.length, costs.length];
  const across = width + 1;
  // The last column is what each row still allows, the last row what each column costs.
  const cells = new Float64Array((height + 1) * across);
  for (let row = 0; row < height; row++) {
    const { coefficients, most } = rows[row] as SmallLp["rows"][number];
    for (let at = 0; at < width; at++) cells[row * across + at] = coefficients[at] ?? 0;
    cells[row * across + width] = most;
  }
  for (let at = 0; at < width; at++) cells[height * across + at] = costs[at] ?? 0;
  // Columns are named 0 and on, slacks of the rows from `width` on.
  const outside = Int32Array.from({ length: width }, (_, at) => at);
  const inside = Int32Array.from({ length: height }, (_, row) => width + row);

  for (let step = 0; step < 20 * patience; step++) {
    const orderly = step > patience;
    const row = missedRow(cells, inside, { height, across, orderly });
    if (row < 0) return best(cells, inside, { height, width });
    const at = entering(cells, outside, { row, height, width, orderly });
    if (at < 0)
      return { kind: "none", weights: weightsOf(cells, { inside, outside, row, height }) };
    pivot(cells, { row, at, height, across });
    const name = inside[row] as number;
    inside[row] = outside[at] as number;
    outside[at] = name;
  }
  return { kind: "stuck" };
}

type Missed = { height: number; across: number; orderly: boolean };

function missedRow(cells: Float64Array, inside: Int32Array, { height, across, orderly }: Missed) {
  let found = -1;
  let least = -rowTolerance;
  for (let row = 0; row < height; row++) {
    const left = cells[row * across + across - 1] as number;
    if (left >= -rowTolerance) continue;
    const better = orderly
      ? found < 0 || (inside[row] as number) < (inside[found] as number)
      : left < least;
    if (better) [found, least] = [row, left];
  }
  return found;
}

type Entering = { row: number; height: number; width: number; orderly: boolean };

/** The column that keeps every cost at 0 or above; of equals the largest pivot, or the first name. */
function entering(
  cells: Float64Array,
  outside: Int32Array,
  { row, height, width, orderly }: Entering,
) {
  const across = width + 1;
  let found = -1;
  let lowest = Number.POSITIVE_INFINITY;
  let largest = 0;
  for (let at = 0; at < width; at++) {
    const coefficient = cells[row * across + at] as number;
    if (coefficient >= -noise) continue;
    const ratio = Math.max(0, cells[height * across + at] as number) / -coefficient;
    if (ratio > lowest + 1e-12) continue;
    const equal = ratio >= lowest - 1e-12;
    const better = orderly
      ? !equal || (outside[at] as number) < (outside[found] as number)
      : !equal || -coefficient > largest;
    if (better) [found, lowest, largest] = [at, Math.min(ratio, lowest), -coefficient];
  }
  return found;
}

type Pivot = { row: number; at: number; height: number; across: number };

function pivot(cells: Float64Array, { row, at, height, across }: Pivot): void {
  const from = row * across;
  const turn = 1 / (cells[from + at] as number);
  for (let column = 0; column < across; column++) {
    if (column !== at) cells[from + column] = (cells[from + column] as number) * turn;
  }
  cells[from + at] = turn;
  for (let other = 0; other <= height; other++) {
    if (other === row) continue;
    const start = other * across;
    const factor = cells[start + at] as number;
    if (factor === 0) continue;
    for (let column = 0; column < across; column++) {
      if (column === at) continue;
      cells[start + column] =
        (cells[start + column] as number) - factor * (cells[from + column] as number);
    }
    cells[start + at] = -factor * turn;
  }
}

function best(
  cells: Float64Array,
  inside: Int32Array,
  { height, width }: { height: number; width: number },
): SmallAnswer {
  const x = new Float64Array(width);
  for (let row = 0; row < height; row++) {
    const name = inside[row] as number;
    if (name < width) x[name] = Math.max(0, cells[row * (width + 1) + width] as number);
  }
  return { kind: "best", x };
}

type Witness = { inside: Int32Array; outside: Int32Array; row: number; height: number };

/** How much of each row goes into the one that cannot be met. */
function weightsOf(cells: Float64Array, { inside, outside, row, height }: Witness): Float64Array {
  const width = outside.length;
  const weights = new Float64Array(height);
  const add = (name: number, weight: number) => {
    if (name >= width) weights[name - width] = Math.max(0, weight);
  };
  add(inside[row] as number, 1);
  for (let at = 0; at < width; at++) {
    add(outside[at] as number, cells[row * (width + 1) + at] as number);
  }
  return weights;
}
