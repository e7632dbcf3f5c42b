import { v7 as uuidv7 } from "uuid";
import type { LabTriple } from "../src/chem/plain-colours.ts";
import { tileColours } from "../src/db/schema/index.ts";
import type { wallTileJson } from "../src/routes/wall-json.ts";
import { stockShelf } from "./shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "./studio.ts";

export type Wall = { items: ReturnType<typeof wallTileJson>[]; next: string | null };

export type TestWall = {
  studio: TestStudio;
  /** Puts a tile of a recipe on record, under a name that a test calls it by. @returns its id. */
  fire: (name: string, slug: string, more?: object) => Promise<string>;
  idOf: (name: string) => string;
  /** Writes down the colour of a tile. */
  measure: (name: string, lab: LabTriple, from?: "instrument" | "camera") => Promise<void>;
  look: (query?: string, who?: Who) => Promise<Wall>;
  /** What hangs on the wall, by the names that the test calls it by. */
  names: (query?: string, who?: Who) => Promise<string[]>;
  page: (path: string) => Promise<string>;
};

/** A studio with powders on its shelf and nothing on its wall. */
export async function openTestWall(): Promise<TestWall> {
  const studio = await openTestStudio();
  await stockShelf(studio);
  const ids = new Map<string, string>();
  const idOf = (name: string): string => {
    const id = ids.get(name);
    if (id === undefined) throw new Error(`nothing is called ${name}`);
    return id;
  };
  const look = (query = "", who: Who = "visitor") => studio.json<Wall>(who, `/tiles${query}`);
  return {
    studio,
    idOf,
    look,
    async fire(name, slug, more = {}) {
      const json = { revision: 1, cone: "6", ...more };
      const answer = await studio.send("author", `/recipes/${slug}/tiles`, { json });
      if (answer.status !== 201) throw new Error(`${name}: ${await answer.text()}`);
      const { id } = (await answer.json()) as { id: string };
      ids.set(name, id);
      return id;
    },
    async measure(name, [lightness, a, b], from = "instrument") {
      await studio.db.insert(tileColours).values({
        ...{ id: uuidv7(), tileId: idOf(name), lightness, a, b, from },
        ...{ by: studio.ids.author, at: new Date("2026-03-01T10:00:00Z") },
      });
    },
    async names(query, who) {
      const { items } = await look(query, who);
      return items.map(({ id }) => [...ids].find(([, known]) => known === id)?.[0] ?? id);
    },
    async page(path) {
      return (await studio.send("visitor", path)).text();
    },
  };
}
