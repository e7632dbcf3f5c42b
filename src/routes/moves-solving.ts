import { type Chemistry, type Finding, workOut } from "../chem/chemistry.ts";
import {
  type Difference,
  differencesBetween,
  type FigureName,
  figureDifferencesBetween,
} from "../chem/differences.ts";
import { findingsBetween } from "../chem/findings-between.ts";
import { type LineChange, lineChanges } from "../chem/line-changes.ts";
import { holdWithin } from "../chem/moved-target.ts";
import type { Oxide } from "../chem/oxides.ts";
import { additionsOn100 } from "../chem/restate-additions.ts";
import { cannotBeToldApart } from "../chem/restate-doubt.ts";
import type { Miss } from "../chem/restate-reasons.ts";
import { basePercents, exactWithin, type Moles, missOf, restatable } from "../chem/restating.ts";
import type { FoundRevision } from "../db/revisions.ts";
import type { Ctx } from "../wire/context.ts";
import type { MovesState } from "../wire/moves-query.ts";
import type { Restated } from "../work/restate.ts";
import { type Solved, solver } from "../work/solver.ts";
import { baseLines, type ShelfRead, type Target } from "./restate-reading.ts";
import { askerOf } from "./solved.ts";

type Line = { material: string; name: string; part: "base" | "addition"; amount: string };

/**
 * What comes of moves. `reached` where every moved oxide is where it was moved to, whatever became of
 * those that were neither moved nor held. The formula is the base's; figures and findings are of the
 * whole recipe, its additions in the same percent of the base.
 */
export type Moved =
  | { status: "none"; because: string }
  | {
      status: "reached" | "nearest";
      /** The time was up: there may be a nearer one. */
      stopped?: "nodes" | "clock";
      lines: Line[];
      /** Of the base, with its ±. */
      unity: NonNullable<Chemistry["unity"]>;
      misses: Miss[];
      /** Every difference of the base's formula is inside the ± of the analyses. */
      withinDoubt: boolean;
      changes: (Omit<LineChange, "material"> & { material: { slug: string; name: string } })[];
      differences: Difference[];
      figures: Difference<FigureName>[];
      findings: { come: Finding[]; go: Finding[] };
      handling: { come: Finding[]; go: Finding[] };
      /** The formula of the whole recipe, as the library's are. */
      whole: Moles;
    };

type Asked = {
  revision: FoundRevision;
  /** With the moves made in what it wants. */
  target: Target;
  state: MovesState;
  shelf: ShelfRead;
};

type Unsolved = Exclude<Solved<unknown>, { kind: "done" | "stopped" }>;

/** Has the solver look for the recipe that moves lead to. */
export async function solveMoves(
  c: Ctx,
  asked: Asked,
): Promise<{ kind: "moved"; moved: Moved } | { kind: "unsolved"; solved: Unsolved }> {
  const { state, shelf } = asked;
  const { wanted, counted } = asked.target;
  const solved = await solver.solve(
    "restate",
    {
      ...{ wanted, counted, bounds: {}, others: 0 },
      first: movedOxides(state),
      held: Object.fromEntries(state.held.map((oxide) => [oxide, endsOf(wanted[oxide] ?? 0)])),
      shelf: shelf.shelf.map(restatable),
    },
    askerOf(c),
  );
  if (solved.kind !== "done" && solved.kind !== "stopped") return { kind: "unsolved", solved };
  const found = solved.kind === "done" ? solved.output : solved.best;
  if (found.kind === "late")
    return { kind: "unsolved", solved: { kind: "nothing", stopped: "clock" } };
  if (found.kind === "none")
    return { kind: "moved", moved: { status: "none", because: found.because } };
  return { kind: "moved", moved: movedBy(found, asked) };
}

/** Percent of the base: below this it is what the solver could not tell from nothing. */
const leastWeighed = 0.0001;

const endsOf = (wanted: number) => ({
  least: wanted - holdWithin(wanted),
  most: wanted + holdWithin(wanted),
});

export const movedOxides = ({ moves }: MovesState): Oxide[] => [
  ...new Set(moves.map(({ oxide }) => oxide)),
];

function movedBy(
  found: Extract<Restated, { kind: "mix" }>,
  { revision, target, state, shelf }: Asked,
): Moved {
  const told = found.base.filter(({ amount }) => Number(amount) >= leastWeighed);
  const weighed = basePercents(
    told.map(({ key, amount }) => ({ key, amount: Number(amount) })),
  ).map(({ of: { key }, amount }) => ({ key, amount }));
  const base = baseLines(weighed, shelf.shelf);
  const named = base.map((line, at) => ({ ...line, material: weighed[at]?.key ?? line.key }));
  const after = [...named, ...additionsOn100(target.additions, target.base)];
  const before = [...target.base, ...target.additions];
  const [was, is] = [before, after].map((lines) =>
    workOut({ lines, use: revision.use, cone: revision.cones.high }),
  ) as [Chemistry, Chemistry];
  const reached = movedOxides(state).every(
    (oxide) => missOf(target.wanted[oxide] ?? 0, found.unity[oxide] ?? 0) <= exactWithin,
  );
  const names = new Map([...before, ...after].map(({ material, name }) => [material, name]));
  const compared = (lines: typeof after) =>
    lines.map(({ key, ...line }) => ({ ...line, analysis: key }));
  return {
    status: reached ? "reached" : "nearest",
    ...(found.stopped ? { stopped: found.stopped } : {}),
    lines: after.map(({ material, name, part, amount }) => ({
      ...{ material, name, part },
      amount: amount.toFixed(),
    })),
    unity: workOut({ lines: base }).unity ?? {},
    misses: found.misses,
    withinDoubt: cannotBeToldApart(target.base, base),
    changes: lineChanges(compared(before), compared(after)).map((change) => ({
      ...change,
      material: { slug: change.material, name: names.get(change.material) ?? change.material },
    })),
    differences: differencesBetween({ lines: target.base }, { lines: base }),
    figures: figureDifferencesBetween({ lines: before }, { lines: after }),
    findings: findingsBetween(was.findings, is.findings),
    handling: findingsBetween(was.handling, is.handling),
    whole: Object.fromEntries(
      Object.entries(is.unity ?? {}).map(([oxide, { value }]) => [oxide, value]),
    ),
  };
}
