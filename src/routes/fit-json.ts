import type { Expansion } from "../chem/chemistry.ts";
import { expansionBeside } from "../chem/expansion-comparison.ts";
import type { Fit } from "../db/fits.ts";

/** A glaze's expansion beside the one recorded as fitting on a body, for each model that answers both. */
export function fitJson({ body, reference }: Fit, expansion: readonly Expansion[]) {
  if (!reference) return { body, reference, beside: [] };
  const { recipe, number, test, expansion: fitting } = reference;
  const beside = expansion
    .map(({ model }) => expansionBeside(model, expansion, fitting))
    .filter(({ kind }) => kind !== "no-reference");
  return {
    body,
    reference: { recipe, revision: number, test: test.id, testedAt: test.at.toISOString() },
    beside,
  };
}
