import type { Finding } from "./chemistry-types.ts";
import type { Melt } from "./melt.ts";
import { namesPass } from "./named.ts";
import { oxidePlace } from "./oxides.ts";
import type { Powder } from "./powder.ts";
import type { Ingredient } from "./pulls.ts";
import { type HandlingRule, handlingRules, type PowderTest } from "./rules-handling.ts";

/**
 * What the powders of a batch do to people in the room, by what the lines are: one finding for each
 * rule that applies, naming the lines. Fumes in the kiln stand among the glaze's own findings.
 * What no rule here knows may harm all the same: a powder without an analysis is known by its name
 * alone.
 */
export function handlingOf({ ingredients }: Melt): Finding[] {
  const lines = new Map<HandlingRule, string[]>();
  for (const ingredient of ingredients) {
    for (const rule of rulesFor(ingredient)) {
      const names = lines.get(rule);
      if (names) names.push(ingredient.name);
      else lines.set(rule, [ingredient.name]);
    }
  }
  return handlingRules.flatMap((rule) => {
    const names = lines.get(rule);
    if (!names) return [];
    const { id, level, seen, next, source } = rule;
    return [{ rule: id, level, says: `To handle: ${names.join(", ")}: ${seen}. ${next}`, source }];
  });
}

const namedFor = namesPass(
  handlingRules.map((rule) => ({ id: rule, words: rule.words, meansElse: rule.not })),
);

/** By the place of an oxide: the tests that begin with it. */
const testsFrom: { rule: HandlingRule; tests: readonly PowderTest[] }[][] = [];
for (const rule of handlingRules) {
  for (const tests of rule.analyses) {
    const [first] = tests;
    if (!first || first.oxide === "loss") continue;
    const place = oxidePlace[first.oxide];
    testsFrom[place] = [...(testsFrom[place] ?? []), { rule, tests }];
  }
}

function rulesFor({ name, powder }: Ingredient): ReadonlySet<HandlingRule> {
  const named = namedFor(name);
  if (!powder) return named;
  let all: Set<HandlingRule> | undefined;
  for (const place of powder.places) {
    const candidates = testsFrom[place];
    if (!candidates) continue;
    for (const { rule, tests } of candidates) {
      if (named.has(rule) || !tests.every((test) => passes(test, powder))) continue;
      all ??= new Set(named);
      all.add(rule);
    }
  }
  return all ?? named;
}

function passes({ oxide, from, below }: PowderTest, powder: Powder): boolean {
  const at = oxide === "loss" ? -1 : powder.places.indexOf(oxidePlace[oxide]);
  const percent = oxide === "loss" ? powder.loss : (powder.percent[at] ?? 0);
  return percent >= from && (below === undefined || percent < below);
}
