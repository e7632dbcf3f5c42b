/** Minimise c·x with A x = b and x ≥ 0, dense and in float64. */
export type StandardForm = { a: number[][]; b: number[]; c: number[] };

export type SimplexAnswer =
  | { kind: "optimal"; x: number[]; objective: number }
  | { kind: "infeasible" }
  | { kind: "unbounded" };

const nothing = 1e-9;

/**
 * The simplex method by hand, to hold another solver against: two phases on a tableau, entering and
 * leaving variables by Bland's rule, so that it never circles.
 *
 * Sources: G. B. Dantzig, Linear Programming and Extensions (1963); R. G. Bland, "New finite pivoting
 * rules for the simplex method", Mathematics of Operations Research 2 (1977), 103–107.
 */
export function simplex({ a, b, c }: StandardForm): SimplexAnswer {
  const rows = a.length;
  const columns = c.length;
  const table = a.map((row, at) => {
    const sign = (b[at] ?? 0) < 0 ? -1 : 1;
    const artificial = a.map((_, other) => (other === at ? 1 : 0));
    return [...row.map((each) => sign * each), ...artificial, sign * (b[at] ?? 0)];
  });
  const basis = a.map((_, at) => columns + at);
  const first = [...Array(columns).fill(0), ...Array(rows).fill(1)] as number[];
  pivotAll(table, basis, first, columns + rows);
  if (costOf(table, basis, first) > nothing * 100) return { kind: "infeasible" };
  leaveArtificials(table, basis, columns);
  const second = [...c, ...Array(rows).fill(0)] as number[];
  if (!pivotAll(table, basis, second, columns)) return { kind: "unbounded" };
  const x = Array(columns).fill(0) as number[];
  basis.forEach((column, row) => {
    if (column < columns) x[column] = table[row]?.at(-1) ?? 0;
  });
  return {
    kind: "optimal",
    x,
    objective: x.reduce((sum, each, at) => sum + each * (c[at] ?? 0), 0),
  };
}

const costOf = (table: number[][], basis: number[], cost: number[]): number =>
  basis.reduce((sum, column, row) => sum + (cost[column] ?? 0) * (table[row]?.at(-1) ?? 0), 0);

/** Pivots until no column below `columns` gains anything; false where one gains without end. */
function pivotAll(table: number[][], basis: number[], cost: number[], columns: number): boolean {
  for (;;) {
    const entering = firstThat(columns, (column) => {
      const gained = basis.reduce(
        (sum, basic, row) => sum + (cost[basic] ?? 0) * (table[row]?.[column] ?? 0),
        0,
      );
      return !basis.includes(column) && (cost[column] ?? 0) - gained < -nothing;
    });
    if (entering === undefined) return true;
    let leaving: number | undefined;
    let least = Infinity;
    table.forEach((row, at) => {
      const pivot = row[entering] ?? 0;
      if (pivot <= nothing) return;
      const ratio = (row.at(-1) ?? 0) / pivot;
      const tied = Math.abs(ratio - least) <= 1e-12;
      if (ratio < least - 1e-12 || (tied && (basis[at] ?? 0) < (basis[leaving ?? 0] ?? 0))) {
        least = Math.min(ratio, least);
        leaving = at;
      }
    });
    if (leaving === undefined) return false;
    pivot(table, basis, leaving, entering);
  }
}

function pivot(table: number[][], basis: number[], at: number, column: number): void {
  const row = table[at] as number[];
  const by = row[column] ?? 1;
  table[at] = row.map((each) => each / by);
  table.forEach((other, place) => {
    const times = other[column] ?? 0;
    if (place === at || times === 0) return;
    table[place] = other.map((each, where) => each - times * (table[at]?.[where] ?? 0));
  });
  basis[at] = column;
}

/** Artificial variables still in the basis are 0: they make room, or their row says nothing. */
function leaveArtificials(table: number[][], basis: number[], columns: number): void {
  for (let at = basis.length - 1; at >= 0; at--) {
    if ((basis[at] ?? 0) < columns) continue;
    const column = firstThat(columns, (each) => Math.abs(table[at]?.[each] ?? 0) > 1e-7);
    if (column !== undefined) pivot(table, basis, at, column);
    else {
      table.splice(at, 1);
      basis.splice(at, 1);
    }
  }
}

function firstThat(count: number, holds: (at: number) => boolean): number | undefined {
  for (let at = 0; at < count; at++) if (holds(at)) return at;
  return undefined;
}
