import type { Fault } from "../parts/field.tsx";

/** The first fault of a field or of anything in it. */
export const faultOf = (faults: readonly Fault[], name: string): string | undefined =>
  faults.find(({ path }) => path === name || path.startsWith(`${name}.`))?.says;

export const withinHint =
  "A share of what is wanted: 0.05 is five in a hundred. An oxide may always be 0.01 mole off, and a colouring or poisonous one that is not wanted stays below 0.002.";

/** “one recipe”, “7 recipes”. */
export const recipesInWords = (count: number): string =>
  count === 1 ? "one recipe" : `${count} recipes`;

/** The faults at the fields that this page has: those of one box at the boxes it stands among. */
export const atFields = (faults: readonly Fault[], within = ""): Fault[] =>
  faults.map(({ path, says }) => {
    const [field = ""] = path.split(".");
    return { path: field === "within" ? `${within}within` : field, says };
  });
