import type { PinnedAnalysis } from "./analyses.ts";
import type { Db } from "./client.ts";
import type { FileRead } from "./import-types.ts";
import { matchMaterials } from "./material-matching.ts";
import { listNames } from "./material-names.ts";
import { findMaterialsBySlug, type MaterialOnShelf } from "./materials.ts";
import { foldName } from "./names.ts";
import { listTakenBack } from "./taken-back.ts";

/** A powder of the shelf that a name in a file may mean, with what somebody has to see before it counts. */
export type Possible = {
  material: MaterialOnShelf;
  how: "name" | "elsewhere" | "likeness" | "chosen";
  because: string;
  analysis: PinnedAnalysis | null;
  /** What to beware of: another powder that goes by one of its words. */
  cautions: string[];
  /** It came with an import that was taken back; used again, it is offered again. */
  takenBack: boolean;
};

/** What a name in a file stands for here: a powder of the shelf, a new one, or nothing. */
export type Chosen = { is: "material"; possible: Possible } | { is: "new" } | { is: "leave out" };

export type NameInFile = {
  name: string;
  /** How many recipes of the file have it. */
  inRecipes: number;
  /** The file says more of it than its name. */
  described: boolean;
  possible: Possible[];
  chosen: Chosen | null;
  /** Whether somebody said so, or it is only what would be chosen for them. */
  said: boolean;
  /** What is wrong with what was said. */
  fault: string | null;
};

/** What a person said of the names: name in the file → slug, `new` or `leave out`. */
export type Matches = Readonly<Record<string, string>>;

/** The most names that one file may have. */
export const mostNames = 500;

/** Every name of a powder in the file, once, in the order of first use. */
export function namesIn({ materials, recipes }: FileRead): Map<string, NameInFile> {
  const names = new Map<string, NameInFile>();
  const add = (name: string, { described = false, inRecipes = 0 }) => {
    const key = foldName(name);
    const known = names.get(key);
    if (known) {
      known.inRecipes += inRecipes;
      return;
    }
    const nothing = { possible: [], chosen: null, said: false, fault: null };
    names.set(key, { name, inRecipes, described, ...nothing });
  };
  for (const { name } of materials) add(name, { described: true });
  for (const { lines } of recipes) {
    const once = new Map(lines.map(({ material }) => [foldName(material), material]));
    for (const material of once.values()) add(material, { inRecipes: 1 });
  }
  return names;
}

/**
 * What each name in the file may mean on this shelf, and what is chosen. An exact name and a name
 * elsewhere are chosen beforehand where they mean one powder only; a likeness never is. Whatever is
 * chosen counts only once somebody has said so.
 */
export async function matchNames(
  db: Db,
  file: FileRead,
  matches: Matches,
): Promise<Map<string, NameInFile>> {
  const names = namesIn(file);
  const said = new Map(Object.entries(matches).map(([name, is]) => [foldName(name), is.trim()]));
  const words = [...names.values()].map(({ name }) => name);
  const found = await matchMaterials(db, words, { takenBackToo: true });
  const slugs = [...said.values()].filter((is) => is !== "new" && is !== "leave out");
  const chosen = await findMaterialsBySlug(db, slugs);
  const all = [...found.values()].flatMap((match) =>
    match.kind === "sure"
      ? [match.material]
      : match.kind === "ask"
        ? match.candidates.map(({ material }) => material)
        : [],
  );
  const ids = [...all, ...chosen.values()].map(({ id }) => id);
  const [elsewhere, gone] = [await listNames(db, ids), await listTakenBack(db, ids)];
  const possibleOf = (
    material: MaterialOnShelf,
    how: Possible["how"],
    because: string,
  ): Possible => ({
    material,
    how,
    because,
    analysis: material.inUse,
    cautions: (elsewhere.get(material.id) ?? []).flatMap(({ name, region, caution }) =>
      caution === "" ? [] : [`“${name}” (${region}): ${caution}`],
    ),
    takenBack: gone.has(material.id),
  });
  for (const [key, entry] of names) {
    const match = found.get(entry.name);
    if (match?.kind === "sure")
      entry.possible = [possibleOf(match.material, "name", "It is this name on the shelf.")];
    if (match?.kind === "ask")
      entry.possible = match.candidates.map(({ material, how, because }) =>
        possibleOf(material, how, because),
      );
    const is = said.get(key);
    if (is === undefined || is === "") {
      entry.chosen = chosenBeforehand(entry.possible);
      continue;
    }
    entry.said = true;
    if (is === "new" || is === "leave out") entry.chosen = { is };
    else {
      const material = chosen.get(is);
      if (!material) {
        entry.fault = `There is no “${is.slice(0, 80)}” on the shelf: a slug such as “quartz”, “new” or “leave out”.`;
        continue;
      }
      const listed = entry.possible.find((each) => each.material.id === material.id);
      const possible = listed ?? possibleOf(material, "chosen", "Chosen for this name.");
      if (!listed) entry.possible.push(possible);
      entry.chosen = { is: "material", possible };
    }
  }
  return names;
}

function chosenBeforehand(possible: readonly Possible[]): Chosen | null {
  const [only, further] = possible;
  if (!only || further || only.takenBack) return null;
  return only.how === "likeness" ? null : { is: "material", possible: only };
}
