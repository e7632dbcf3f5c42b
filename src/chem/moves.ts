import type { Chemistry, Finding, Level } from "./chemistry.ts";
import { type Oxide, oxides } from "./oxides.ts";
import { leachList } from "./rules.ts";

/** One thing that moved far enough to end an approval. */
export type Move =
  | { kind: "unity"; oxide: string; before: number; after: number }
  | { kind: "expansion"; model: string; before: number; after: number }
  | { kind: "leachable"; oxide: Oxide }
  | { kind: "finding"; rule: string; before: Level | null; after: Level | null };

/** A unity oxide may move by 2 % of itself or by 0.01, an expansion by 0.2·10⁻⁶/K. */
const mostShare = 0.02;
const mostMoles = 0.01;
const mostExpansion = 0.2;

/**
 * What has moved from one chemistry of a recipe to another by more than an approval bears: a unity
 * oxide by more than max(2 %, 0.01), the expansion by more than 0.2·10⁻⁶/K, an oxide of the leach
 * list that was not there, a finding whose level is another. A ± never widens these bounds.
 * Common practice, no source.
 *
 * Worked number: SiO2 from 3.00 to 3.05 stays (0.05 is under 2 % of 3.00), to 3.07 it has moved.
 */
export function movesBetween(before: Chemistry, after: Chemistry): Move[] {
  return [
    ...unityMoves(before, after),
    ...expansionMoves(before, after),
    ...leachableMoves(before, after),
    ...findingMoves(before.findings, after.findings),
  ];
}

function unityMoves(before: Chemistry, after: Chemistry): Move[] {
  const [from, to] = [valuesOf(before.unity), valuesOf(after.unity)];
  return [...new Set([...from.keys(), ...to.keys()])].flatMap((oxide) => {
    const [was, is] = [from.get(oxide) ?? 0, to.get(oxide) ?? 0];
    const far = Math.abs(is - was) > Math.max(mostShare * was, mostMoles);
    return far ? [{ kind: "unity" as const, oxide, before: was, after: is }] : [];
  });
}

const valuesOf = (unity: Chemistry["unity"]): Map<string, number> =>
  new Map(Object.entries(unity ?? {}).map(([oxide, { value }]) => [oxide, value]));

function expansionMoves(before: Chemistry, after: Chemistry): Move[] {
  return before.expansion.flatMap(({ model, value: was }) => {
    const is = after.expansion.find((other) => other.model === model)?.value ?? null;
    if (was === null || is === null || Math.abs(is - was) <= mostExpansion) return [];
    return [{ kind: "expansion" as const, model, before: was, after: is }];
  });
}

function leachableMoves(before: Chemistry, after: Chemistry): Move[] {
  const listed = new Set<string>(leachList.map(({ oxide }) => oxide));
  return oxides
    .filter((oxide) => listed.has(oxide) && has(after, oxide) && !has(before, oxide))
    .map((oxide) => ({ kind: "leachable", oxide }));
}

const has = ({ weightPercent }: Chemistry, oxide: Oxide): boolean =>
  (weightPercent[oxide]?.value ?? 0) > 0;

const gravity: Record<Level, number> = { note: 0, caution: 1, stop: 2 };

function findingMoves(before: readonly Finding[], after: readonly Finding[]): Move[] {
  const [was, is] = [levelsOf(before), levelsOf(after)];
  return [...new Set([...was.keys(), ...is.keys()])].sort().flatMap((rule) => {
    const [from, to] = [was.get(rule) ?? null, is.get(rule) ?? null];
    return from === to ? [] : [{ kind: "finding" as const, rule, before: from, after: to }];
  });
}

/** The gravest level that each rule found. */
function levelsOf(findings: readonly Finding[]): Map<string, Level> {
  const levels = new Map<string, Level>();
  for (const { rule, level } of findings) {
    const known = levels.get(rule);
    if (!known || gravity[level] > gravity[known]) levels.set(rule, level);
  }
  return levels;
}
