import type { Finding } from "./chemistry-types.ts";
import { found, percentOfGlass, spoken } from "./finding.ts";
import type { Melt } from "./melt.ts";
import { poisons } from "./rules.ts";

/**
 * Poisons that bar a glaze from food: over their limit in the fired glass, or named in a
 * material's name, whatever its analysis says. Below the limit a note gives the figure, since
 * real zinc oxides and frits carry traces. "Lead-free" and the like do not count as named.
 */
export function poisonFindings(melt: Melt): Finding[] {
  return poisons.flatMap(({ id, name, oxide, limit, source }) => {
    const value = percentOfGlass(melt, oxide);
    const figures = { value, limit };
    if (value > limit) {
      const seen = `${oxide} is ${spoken(value)} % of the fired glass: ${name} bars a glaze from food over ${limit} %.`;
      return [{ ...found("poison", seen, figures), rule: id, source }];
    }
    const namedIn = melt.ingredients.filter((each) => names(each.name, id));
    if (namedIn.length > 0) {
      const materials = namedIn.map((each) => each.name).join(", ");
      const seen = `${materials} is named for ${name}, which bars a glaze from food.`;
      return [{ ...found("poison-named", seen), rule: id, source }];
    }
    if (value === 0) return [];
    const seen = `${oxide} is ${spoken(value)} % of the fired glass, a trace of ${name} under the limit of ${limit} %.`;
    return [{ ...found("trace", seen, figures), rule: id, source }];
  });
}

/** A poison's words as patterns, made once: what names it, and what says that it is not there. */
const patterns = new Map(
  poisons.map(({ id, words }) => {
    const word = `(?:${words.join("|")})`;
    const [starts, ends] = ["(?<!\\p{L})", "(?!\\p{L})"];
    const denials = `${starts}(?:no|non|without|free of|free from)[ -]${word}${ends}|${starts}${word}[ -](?:free|less)${ends}`;
    return [
      id,
      { named: new RegExp(`${starts}${word}${ends}`, "iu"), denied: new RegExp(denials, "giu") },
    ];
  }),
);

function names(material: string, id: string): boolean {
  const pattern = patterns.get(id);
  if (!pattern?.named.test(material)) return false;
  return pattern.named.test(material.replace(pattern.denied, " "));
}
