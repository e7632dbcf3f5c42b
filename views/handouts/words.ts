import type { Use } from "../../src/chem/chemistry-types.ts";
import { toFahrenheit } from "../../src/chem/cone-tables.ts";
import { type Cone, coneCelsius } from "../../src/chem/cones.ts";
import type { StandingIs } from "../parts/standing.tsx";
import type { ShownPiece, ShownPowder, Temperature } from "./types.ts";

const ruledOut =
  "keep it off every surface that food, drink, lips or cutlery touch; not inside the pot, not on the rim or within 20 mm of it, and not on spoon rests, lidded jars or pet bowls. A glaze that crazes or crackles is always decorative only.";
const decorative = `Decorative only: ${ruledOut}`;
const decorativeMeans = `Decorative only means: ${ruledOut}`;

const alone =
  "This is of the glaze by itself. Where it overlaps another glaze it is decorative only, unless that overlap has tiles and a standing of its own.";

/** What a revision may be used for by somebody elsewhere, in sentences; nothing is ever promised. */
export function mayUseOf(
  use: Use,
  standing: { is: StandingIs; for: Use | null },
): { food: boolean; says: string[] } {
  const no = (...says: string[]) => ({ food: false, says: [...says, alone] });
  if (standing.is === "withdrawn")
    return no("Do not use it: this recipe was withdrawn.", decorative);
  if (use === "decorative") return no(decorative);
  if (standing.is === "needs another look")
    return no(
      "Not for food now: what it was approved on no longer holds. Until somebody has looked again it is decorative only.",
      decorativeMeans,
    );
  if (standing.is === "approved" && standing.for === "functional")
    return {
      food: true,
      says: [
        "Functional: it may touch food, drink and lips, on the tiles, tests and firings of the studio that approved it. Another clay body, kiln or bag of powder makes another glaze: until your own tiles and tests say the same, use yours as decorative only.",
        decorativeMeans,
        alone,
      ],
    };
  return no(
    "Not for food: nobody has approved this revision for functional ware. Until somebody does it is decorative only.",
    decorativeMeans,
  );
}

const changes: Readonly<Record<"glaze" | "firing" | "words", string>> = {
  glaze: "It changes the glaze: powders, amounts or analyses are others, and so are its tiles.",
  firing: "The glaze is the same, and the cones, the atmosphere or what it is for are others.",
  words: "The glaze and its firing are the same; only words changed.",
};

/**
 * That there is a newer revision than the one handed out.
 *
 * @param open whether the reader may know what is in it.
 */
export const newerWords = (
  newer: { number: number; publishedAt: Date; changes: keyof typeof changes },
  { open, owner }: { open: boolean; owner: string },
): string =>
  open
    ? `A newer revision exists: revision ${newer.number}, of ${newer.publishedAt.toISOString().slice(0, 10)}. ${changes[newer.changes]}`
    : `A newer revision exists. Ask ${owner} whether it changes the glaze.`;

/** A cone with how hot it is, since names mislead: "cone 6, whose end point is 2232 °F …". */
export function coneHeat(cone: Cone, temperature: Temperature): string {
  const heat = coneCelsius(cone);
  if (!heat) return `cone ${cone} (no temperature of it is held here)`;
  const end = degrees(heat.celsius, temperature);
  const rate = temperature === "F" ? (heat.rate * 9) / 5 : heat.rate;
  return `cone ${cone} (end point about ${end} when heated at ${Math.round(rate)} °${temperature} an hour, ${heat.series})`;
}

/** Whole degrees in the unit that was asked for: 1222 °C is 2232 °F. */
export const degrees = (celsius: number, temperature: Temperature): string =>
  `${Math.round(temperature === "F" ? toFahrenheit(celsius) : celsius)} °${temperature}`;

/** What to ask for, and in brackets what it is called besides: "Silica (here Quartz)". */
export function powderWords({ name, called }: Pick<ShownPowder, "name" | "called">): string {
  if (!called) return name;
  const others = [...called.also, ...(called.name === name ? [] : [`here ${name}`])];
  return others.length === 0 ? called.name : `${called.name} (${others.join(", ")})`;
}

/** "Handout of Little Tern, revision 1, as of 2026-07-13", for each printed piece. */
export const markOf = ({ recipe, number }: Pick<ShownPiece, "recipe" | "number">, asOf: Date) =>
  `Handout of ${recipe.name}, revision ${number}, as of ${asOf.toISOString().slice(0, 10)}`;

const kindNames: Readonly<Record<string, string>> = {
  leach: "leaching, by a laboratory",
  knife: "knife marks",
};

/** What was not tested, in one sentence; null where nothing is missing. */
export const untestedWords = (untested: readonly string[]): string | null =>
  untested.length === 0
    ? null
    : `Not tested: ${untested.map((what) => kindNames[what] ?? what).join("; ")}.`;
