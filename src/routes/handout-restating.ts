import { Decimal } from "decimal.js";
import type { ShownRestated } from "../../views/handouts/types.ts";
import { type Chemistry, workOut } from "../chem/chemistry.ts";
import { additionsOn100 } from "../chem/restate-additions.ts";
import { restatable } from "../chem/restating.ts";
import type { Piece } from "../db/handout-pieces.ts";
import type { Ctx } from "../wire/context.ts";
import { type Asker, type Solved, solver, solverSeconds } from "../work/solver.ts";
import type { Own } from "./handout-own.ts";
import { type RestatedAnswer, restatedAnswer } from "./restate-json.ts";
import {
  baseLines,
  type OnShelf,
  publishedLines,
  type ShelfRead,
  type Target,
  targetOfLines,
} from "./restate-reading.ts";
import { askerOf } from "./solved.ts";

export type RestatedPieces =
  | { kind: "restated"; pieces: { shown: ShownRestated; answer: RestatedAnswer | null }[] }
  | { kind: "unsolved"; solved: Exclude<Solved<unknown>, { kind: "done" | "stopped" }> };

/**
 * Every recipe of a handout from the reader's own powders, one after the other, within the time that
 * one question may take: what comes after that is told as not worked out.
 */
export async function restatePieces(
  c: Ctx,
  pieces: readonly Piece[],
  own: readonly Own[],
): Promise<RestatedPieces> {
  const asking = askerOf(c);
  const until =
    performance.now() + 1000 * solverSeconds[asking.asker.member ? "member" : "visitor"];
  const done: { shown: ShownRestated; answer: RestatedAnswer | null }[] = [];
  for (const piece of pieces) {
    const late = performance.now() > until;
    const found = await restatePiece(piece, own, late ? "late" : asking);
    if (found.kind === "unsolved") return found;
    done.push(found);
  }
  return { kind: "restated", pieces: done };
}

type Asking = { asker: Asker; signal: AbortSignal };

async function restatePiece(piece: Piece, own: readonly Own[], asking: Asking | "late") {
  const { recipe, revision } = piece;
  const told = (kind: "untouched" | "none", says: string) => ({
    ...{ kind: "told" as const, shown: { kind, says } as const, answer: null },
  });
  const used = own.filter(({ slug }) => isIn(piece, slug, "base"));
  if (used.length === 0) {
    const onTop = own.filter(({ slug }) => isIn(piece, slug, "addition"));
    return told(
      "untouched",
      onTop.length > 0
        ? "None of your powders is in its base. What comes on top is kept as it is, whatever bag it is from."
        : "None of your powders is in it: it stays as it is.",
    );
  }
  const read = targetOfLines(publishedLines(revision), {
    ...{ slug: recipe.slug, name: recipe.name, number: revision.number, cones: revision.cones },
    isPrivate: recipe.shownTo === "private",
  });
  if (read.kind === "faulty") return told("none", read.faults.map(({ says }) => says).join(" "));
  if (asking === "late")
    return told("none", "The time was up before this one. Ask again with its recipe by itself.");
  const { target } = read;
  const shelf = shelfOf(target, used);
  const began = performance.now();
  const { wanted, counted } = target;
  const solved = await solver.solve(
    "restate",
    {
      ...{ wanted, counted, prefer: "weight" },
      bounds: {},
      shelf: shelf.shelf.map(restatable),
      // Other answers would take the time of the next recipe.
      others: 0,
    },
    asking,
  );
  if (solved.kind !== "done" && solved.kind !== "stopped")
    return { kind: "unsolved" as const, solved };
  const restated = solved.kind === "done" ? solved.output : solved.best;
  if (restated.kind === "late") return told("none", "The time was up before there was any answer.");
  const seconds = Math.round(performance.now() - began) / 1000;
  const answer = restatedAnswer(restated, { target, read: shelf, keepAdditions: true, seconds });
  const { status } = answer;
  if (status === "none") return { ...told("none", answer.because ?? ""), answer };
  return {
    kind: "told" as const,
    answer,
    shown: mixOf({ ...answer, status }, { piece, target, shelf, used }),
  };
}

const isIn = ({ revision }: Piece, slug: string, part: "base" | "addition"): boolean =>
  revision.lines.some(
    (line) => line.part === part && line.material.slug === slug && line.amount.gt(0),
  );

/** The base's own powders by the analyses that the recipe counts on, and the reader's in their places. */
function shelfOf({ base }: Target, used: readonly Own[]): ShelfRead {
  const shelf = new Map<string, OnShelf>();
  const leftOut: ShelfRead["leftOut"] = [];
  for (const { material, name, analysis, key, pinned } of base) {
    const own = used.find(({ slug }) => slug === material);
    if (own)
      shelf.set(own.name, {
        ...{ key: own.name, name: own.name, analysis: own.analysis },
        analysisKey: JSON.stringify([own.name, own.analysis]),
        ...{ materialId: undefined, used: undefined },
      });
    else if (analysis)
      shelf.set(material, {
        ...{ key: material, name, analysis, analysisKey: key },
        ...{ materialId: pinned?.materialId, used: undefined },
      });
    else leftOut.push({ material, because: `${name} has no analysis: it can be added, no more.` });
  }
  return { shelf: [...shelf.values()], leftOut, faults: [] };
}

type Mixed = { piece: Piece; target: Target; shelf: ShelfRead; used: readonly Own[] };

/** The mix beside what was handed out, with the chemistry of the whole recipe. */
function mixOf(
  answer: RestatedAnswer & { status: "exact" | "nearest" },
  { piece, target, shelf, used }: Mixed,
): ShownRestated {
  const { status, unity, misses, withinDoubt, leftOut } = answer;
  const after = answer.lines.map((line) => ({ ...line, amount: new Decimal(line.amount) }));
  const base = after
    .filter(({ part }) => part === "base")
    .map(({ material, amount }) => ({ key: material, amount }));
  const additions = additionsOn100(target.additions, target.base);
  const chemistry = workOut({
    lines: [...baseLines(base, shelf.shelf), ...additions],
    cone: piece.revision.cones.high,
    use: piece.revision.use,
  });
  return {
    ...{ kind: "mix", status, misses, withinDoubt, chemistry },
    lines: linesBeside(target, after, used),
    counted: target.counted,
    wanted: target.wanted,
    got: unity ?? {},
    leftOut: [
      ...leftOut.map(({ because }) => because),
      ...used
        .filter(({ name }) => !after.some(({ material }) => material === name))
        .map(({ name }) => `${name} is not in it: the mix comes nearer without it.`),
    ],
    assumed: assumedOf(chemistry, used),
  };
}

const assumedOf = ({ assumed }: Chemistry, used: readonly Own[]): string[] =>
  assumed
    .filter(({ material }) => used.some(({ name }) => name === material))
    .map(({ says }) => says);

type After = { material: string; name: string; part: "base" | "addition"; amount: Decimal };

/** Amount by amount: a powder of the reader's stands in a row of its own beside the one it replaces. */
function linesBeside(target: Target, after: readonly After[], used: readonly Own[]) {
  const before = [
    ...additionsOn100(target.base, target.base),
    ...additionsOn100(target.additions, target.base),
  ];
  const rows = new Map<
    string,
    {
      slug: string;
      name: string;
      part: "base" | "addition";
      own: boolean;
      before: Decimal | null;
      after: Decimal | null;
    }
  >();
  for (const { material, name, part, amount } of before) {
    const key = `${part} ${material}`;
    const known = rows.get(key);
    const sum = known?.before?.plus(amount) ?? amount;
    rows.set(key, { slug: material, name, part, own: false, before: sum, after: null });
  }
  for (const { material, name, part, amount } of after) {
    const key = `${part} ${material}`;
    const known = rows.get(key);
    const own = used.some((each) => each.name === material);
    const sum = known?.after?.plus(amount) ?? amount;
    rows.set(key, { slug: material, name, part, own, before: known?.before ?? null, after: sum });
  }
  return [...rows.values()].sort(
    (a, b) => Number(a.part === "addition") - Number(b.part === "addition"),
  );
}
