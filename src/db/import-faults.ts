import type { Fault } from "../chem/analysis.ts";
import type { ImportPlan } from "./import-plan-types.ts";

/** The path of what was said of a name: `matches.Potash feldspar`. */
export const pathOfName = (name: string): string => `matches.${name}`;

/**
 * What keeps a plan from being carried out, with its place; empty where nothing does. Every name has
 * to be said by somebody, also one that matches to the letter: what it counts as here was shown first.
 */
export function faultsOfPlan(
  plan: ImportPlan,
  { leaveOutRefused }: { leaveOutRefused: boolean },
): Fault[] {
  const names = plan.names.flatMap(({ name, chosen, said, fault }) => {
    if (fault !== null) return [{ path: pathOfName(name), says: fault }];
    if (chosen === null)
      return [{ path: pathOfName(name), says: `Say which powder “${name}” is here.` }];
    if (said) return [];
    const here = chosen.is === "material" ? chosen.possible.material.name : name;
    return [{ path: pathOfName(name), says: `Say that “${name}” is ${here} here.` }];
  });
  if (leaveOutRefused) return names;
  const entries = plan.refused.flatMap(({ faults }) => faults);
  return [...names, ...entries, ...plan.recipes.flatMap(({ faults }) => faults)];
}

/** How much of a file is new here, should it be taken in. */
export const bringsOf = (plan: ImportPlan) => ({
  recipes: plan.recipes.filter(({ is }) => is === "draft").length,
  materials: plan.materials.filter(({ is }) => is === "new").length,
  analyses: plan.analyses.filter(({ is }) => is === "in use" || is === "waits for a manager")
    .length,
  notes: plan.quotes.length,
});
