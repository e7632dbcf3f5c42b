import { Decimal } from "decimal.js";
import type { Part } from "../chem/lines.ts";
import type { Db } from "../db/client.ts";
import type { DraftLine } from "../db/drafts.ts";
import { findMaterialsBySlug, type MaterialOnShelf } from "../db/materials.ts";
import { slugOf } from "../db/names.ts";
import { findByEmail } from "../db/people.ts";
import { publishMany } from "../db/publishing-many.ts";
import { known } from "./diary.ts";
import type { DemoLine } from "./glazes.ts";
import { madeUpRecipe } from "./made-up-recipes.ts";
import { emailOf, everyone } from "./people.ts";
import { demoShelf } from "./shelf.ts";

/** After everything else in the demo's record, and before the day it was written. */
const firstAt = Date.parse("2026-10-25T08:00:00Z");
const apart = 2_000;

/**
 * Sees to it that the library holds `count` made-up recipes besides the demo's own; those that are
 * there already are left as they are.
 *
 * @returns how many were added.
 */
export async function makeMany(db: Db, count: number): Promise<number> {
  const shelf = await readShelf(db);
  const owners = await findOwners(db);
  const lines = (part: Part, given: readonly DemoLine[]): DraftLine[] =>
    given.map(([name, amount]) => {
      const { id, slug, inUse } = known(shelf, name);
      return { part, material: { id, slug, name }, analysis: inUse, amount: new Decimal(amount) };
    });

  function* offered() {
    for (let number = 0; number < count; number += 1) {
      const { name, base, additions, cones, shownTo, use, surface } = madeUpRecipe(number);
      const [low, high] = cones;
      yield {
        name,
        shownTo,
        by: owners[number % owners.length] ?? "",
        at: new Date(firstAt + number * apart),
        draft: {
          lines: [...lines("base", base), ...lines("addition", additions)],
          use,
          cones: { low, high },
          atmosphere: "oxidation" as const,
          surface,
          about: "Made up by the program, for volume.",
          message: "",
        },
      };
    }
  }
  return (await publishMany(db, offered())).published;
}

async function readShelf(db: Db): Promise<Map<string, MaterialOnShelf>> {
  const slugs = demoShelf.map(({ name }) => slugOf(name));
  const found = await findMaterialsBySlug(db, slugs);
  return new Map([...found.values()].map((material) => [material.name, material]));
}

/** Whoever of the demo's people still belongs to the studio. */
async function findOwners(db: Db): Promise<string[]> {
  const found = [];
  for (const who of everyone) {
    const person = await findByEmail(db, emailOf(who));
    if (person) found.push(person.id);
  }
  if (found.length === 0) throw new Error("Nobody of the demo's people is left to own recipes.");
  return found;
}
