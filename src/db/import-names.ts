import type { Db } from "./client.ts";
import { foldName } from "./names.ts";
import { materials, recipes } from "./schema/index.ts";

const longest = 80;

/** Gives out names that nothing in the studio has, and none twice. */
export type FreeNames = (wanted: string, from: string) => string;

/** @returns a name as wanted, else with where it is from behind it, else with a number too. */
export function freeNames(taken: Iterable<string>): FreeNames {
  const keys = new Set(taken);
  return (wanted, from) => {
    for (const name of ways(wanted, from)) {
      const key = foldName(name);
      if (keys.has(key)) continue;
      keys.add(key);
      return name;
    }
    throw new Error("every name is taken");
  };
}

function* ways(wanted: string, from: string): Generator<string> {
  yield wanted;
  const source = from.replace(/\s+/g, " ").trim().slice(0, 30).trim();
  const behind = source === "" ? "" : ` (from ${source})`;
  if (behind !== "") yield fitted(wanted, behind);
  for (let number = 2; number <= 10_000; number += 1) yield fitted(wanted, `${behind} ${number}`);
}

/** Cut between characters, so that none is halved. */
function fitted(name: string, behind: string): string {
  const room = longest - behind.length;
  let kept = "";
  for (const character of name) {
    if (kept.length + character.length > room) break;
    kept += character;
  }
  return `${kept.trim()}${behind}`;
}

export const freeRecipeNames = async (db: Db): Promise<FreeNames> =>
  freeNames((await db.select({ key: recipes.nameKey }).from(recipes)).map(({ key }) => key));

export const freeMaterialNames = async (db: Db): Promise<FreeNames> =>
  freeNames((await db.select({ key: materials.nameKey }).from(materials)).map(({ key }) => key));
