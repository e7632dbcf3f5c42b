import type { Finding } from "./chemistry-types.ts";
import { cannotBeTold, found, judge, percentOfGlass, spokenWith } from "./finding.ts";
import type { Melt } from "./melt.ts";
import { namesPass } from "./named.ts";
import { poisons } from "./rules.ts";

/**
 * Poisons that bar a glaze from food: over their limit in the fired glass, or named in a
 * material's name, whatever its analysis says. Below the limit a note gives the figure, since
 * real zinc oxides and frits carry traces; a ± that reaches over the limit is said and stops nothing.
 * "Lead-free" and the like do not count as named.
 */
export function poisonFindings(melt: Melt): Finding[] {
  const named = melt.ingredients.filter((each) => namedFor(each.name).size > 0);
  return poisons.flatMap(({ id, name, oxide, limit, source }) => {
    const of = percentOfGlass(melt, oxide);
    const { beyond, doubtful } = judge(of, "over", limit);
    const namedIn = named.filter((each) => namedFor(each.name).has(id));
    if (of.value === 0 && !doubtful && namedIn.length === 0) return [];
    const figures = { ...of, limit };
    const doubt = doubtful ? ` At this ± ${cannotBeTold}.` : "";
    const figure = `${oxide} is ${spokenWith(of)} % of the fired glass`;
    if (beyond) {
      const seen = `${figure}: ${name} bars a glaze from food over ${limit} %.${doubt}`;
      return [{ ...found("poison", seen, figures), rule: id, source }];
    }
    if (namedIn.length > 0) {
      const materials = namedIn.map((each) => each.name).join(", ");
      const seen = `${materials} is named for ${name}, which bars a glaze from food.`;
      return [{ ...found("poison-named", seen), rule: id, source }];
    }
    const seen = `${figure}, a trace of ${name} under the limit of ${limit} %.${doubt}`;
    return [{ ...found("trace", seen, figures), rule: id, source }];
  });
}

/** Which poisons a material's name names, rather than says that they are not there. */
const namedFor = namesPass(
  poisons.map(({ id, words }) => {
    const word = `(?:${words.join("|")})`;
    const denials = [`(?:no|non|without|free of|free from)[ -]${word}`, `${word}[ -](?:free|less)`];
    return { id, words, meansElse: denials };
  }),
);
