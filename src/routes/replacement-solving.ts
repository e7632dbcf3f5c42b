import { setImmediate as pause } from "node:timers/promises";
import type { Miss } from "../chem/restate-reasons.ts";
import { type RestatedBeside, restatedBeside } from "../chem/restated-beside.ts";
import { restatable } from "../chem/restating.ts";
import type { DraftLine } from "../db/drafts.ts";
import type { HeadWith } from "../db/heads-with.ts";
import {
  arePublishable,
  type Powder,
  type ReplacingTarget,
  requestOf,
  restatedLines,
  targetOf,
} from "../db/replacing.ts";
import { type Approved, findApproved } from "../db/standings.ts";
import type { Ctx } from "../wire/context.ts";
import type { RestatedOne } from "../work/restate-many.ts";
import { solver } from "../work/solver.ts";
import type { Choices } from "./replacement-reading.ts";
import { askerOf, unsolved } from "./solved.ts";

/** What came of one recipe: lines to publish, or why there are none. */
export type Replaced = HeadWith &
  (
    | { is: "none" | "by hand" | "late"; because: string }
    | {
        is: "exact" | "nearest";
        /** Eight decimals, and as they are published. */
        exact: DraftLine[];
        weighed: DraftLine[];
        misses: Miss[];
        /** More new powders than were allowed would come nearer. */
        nearer: boolean;
      }
  );

export type ReplacedBeside = Replaced & {
  beside: RestatedBeside | null;
  approved: Approved | null;
};

export type Solved =
  | { kind: "solved"; items: Replaced[] }
  | { kind: "unsolved"; refusal: Response };

type Aimed = HeadWith & { target: ReplacingTarget };

/** Heads restated one after another by the solver's thread. */
export async function restateHeads(
  c: Ctx,
  choices: Choices,
  heads: readonly HeadWith[],
): Promise<Solved> {
  const aimed = heads.map((each): Aimed => ({ ...each, target: targetOf(each.head, choices) }));
  const targets = aimed.flatMap(({ target }) => (target.kind === "target" ? [target] : []));
  const powders = [
    ...new Map(
      [...choices.offered, ...targets.flatMap(({ kept }) => kept)].map((each) => [each.slug, each]),
    ).values(),
  ];
  let answers: RestatedOne[] = [];
  if (targets.length > 0) {
    const input = {
      shelf: powders.map(({ slug, name, inUse }) =>
        restatable({ key: slug, name, analysis: inUse.analysis }),
      ),
      offered: choices.offered.map(({ slug }) => slug),
      most: choices.asked.most,
      recipes: targets.map(({ wanted, counted, kept }) => ({
        ...{ wanted, counted },
        kept: kept.map(({ slug }) => slug),
      })),
    };
    const solved = await solver.solve("restate-many", input, askerOf(c));
    if (solved.kind !== "done" && solved.kind !== "stopped")
      return { kind: "unsolved", refusal: await unsolved(c, solved) };
    answers = solved.kind === "done" ? solved.output : solved.best;
  }
  const inOrder = answers[Symbol.iterator]();
  const items = aimed.map(({ target, ...each }) =>
    target.kind === "target"
      ? replaced(each, inOrder.next().value ?? { kind: "late" }, powders)
      : { ...each, is: target.kind, because: target.because },
  );
  return { kind: "solved", items };
}

function replaced(each: HeadWith, answer: RestatedOne, powders: readonly Powder[]): Replaced {
  switch (answer.kind) {
    case "late":
      return { ...each, is: "late", because: "Not looked at in time: ask for fewer at once." };
    case "none":
      return { ...each, is: "none", because: answer.because };
    case "mix": {
      const { status: is, base, misses, nearer = false } = answer;
      const lines = restatedLines(each.head, base, powders);
      if (!arePublishable(lines.weighed))
        return {
          ...each,
          is: "none",
          because: "What comes of it is not a recipe that can be kept.",
        };
      return { ...each, is, ...lines, misses, nearer };
    }
  }
}

/** Each beside what it was, other requests being let in between. */
export async function besideEach(c: Ctx, items: readonly Replaced[]): Promise<ReplacedBeside[]> {
  const { db, now } = c.var;
  const shown: ReplacedBeside[] = [];
  for (const item of items) {
    const { head, recipe } = item;
    const beside =
      "exact" in item
        ? restatedBeside(requestOf(head, head.lines), requestOf(head, item.exact))
        : null;
    shown.push({ ...item, beside, approved: await findApproved(db, { recipeId: recipe.id, now }) });
    await pause();
  }
  return shown;
}
