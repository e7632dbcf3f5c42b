import { readdirSync } from "node:fs";
import { join } from "node:path";

/** A glaze and its fork: much of the rest is about them. */
const glazes = ["Slack Water", "Ebb Green"];

/** What each release's `src/demo` has in common, as far as it is used here. */
type Entry = { at: Date; happens: (making: object, at: Date) => Promise<void> };
type Db = { transaction: (work: (tx: object) => Promise<void>) => Promise<void> };

/** Everybody's password in these studios. */
export const password = "saltmarsh one";

/**
 * Lets happen in an empty database what the release's own demo tells of, as far as it is about the
 * few glazes above and their powders: what speaks of another is left out whole, and all pictures are
 * one tiny one.
 *
 * @returns how many of the demo's entries were left out.
 */
export async function fillSmall(release: string, db: Db): Promise<number> {
  const load = (path: string) => import(join(release, "src", path));
  const { openStudio } = await load("db/studios.ts");
  const { everyone } = await load("demo/people.ts");
  const { hashPassword } = await load("work/passwords.ts");
  const hash = await hashPassword(password);
  await openStudio(db, "Saltmarsh Lane Studio");
  await keepFew(release);
  const picture = await tinyPicture(load);
  const drawn = { get: async () => picture };
  const making = {
    ...Object.fromEntries(kept.map((name) => [name, new Map()])),
    prepared: {
      hashes: Promise.resolve(Object.fromEntries(everyone.map((who: string) => [who, hash]))),
      // Once a map of them, later a function that answers one.
      pictures: Object.assign(() => drawn, drawn),
    },
  };
  let leftOut = 0;
  for (const { at, happens } of await entriesOf(release)) {
    const happened = db.transaction((tx) => happens({ ...making, db: tx }, at));
    await happened.catch((error) => {
      leftOut += 1;
      if (process.env.TELL) console.error(error instanceof Error ? error.message : error);
    });
  }
  return leftOut;
}

type Revision = { base: [string, string][]; additions?: [string, string][] };
type Listed = { name?: string; revisions?: Revision[]; results?: { look?: unknown }[] };

/** The demo's lists are arrays that its entries are made of when they are asked for. */
async function keepFew(release: string): Promise<void> {
  const lists = await listsOf(release);
  const keep = (list: Listed[], which: (each: Listed) => boolean) =>
    list.splice(0, list.length, ...list.filter(which));
  const few = lists.get("demoGlazes") ?? [];
  keep(few, ({ name = "" }) => glazes.includes(name));
  const revisions = few.flatMap(({ revisions = [] }) => revisions);
  const powders = new Set(
    revisions.flatMap(({ base, additions = [] }) => [...base, ...additions].map(([name]) => name)),
  );
  keep(lists.get("demoShelf") ?? [], ({ name = "" }) => powders.has(name));
  // Some release draws these itself, a hundred kilobytes each.
  for (const { results = [] } of lists.get("demoTrials") ?? [])
    for (const result of results) delete result.look;
}

async function listsOf(release: string): Promise<Map<string, Listed[]>> {
  const lists = new Map<string, Listed[]>();
  for (const file of readdirSync(join(release, "src/demo")).sort())
    for (const [name, value] of Object.entries(await import(join(release, "src/demo", file))))
      if (Array.isArray(value)) lists.set(name, value);
  return lists;
}

const kept = [
  ...["ids", "materialSlugs", "materialIds", "shelf", "recipeIds", "bodyIds"],
  ...["kilnIds", "firingIds", "tileIds", "revisions"],
];

async function entriesOf(release: string): Promise<Entry[]> {
  const entries: Entry[] = [];
  for (const file of readdirSync(join(release, "src/demo")).sort()) {
    if (!file.startsWith("making-") || file === "making-many.ts") continue;
    const made = await import(join(release, "src/demo", file));
    for (const [name, make] of Object.entries(made))
      if (name.endsWith("Entries")) entries.push(...(make as () => Entry[])());
  }
  return entries.sort((one, other) => one.at.getTime() - other.at.getTime());
}

async function tinyPicture(load: (path: string) => Promise<Record<string, never>>) {
  const { default: sharp } = await import("sharp");
  const { makePicture } = (await load("work/pictures.ts")) as unknown as {
    makePicture: (png: Buffer) => Promise<{ kind: string; picture: unknown }>;
  };
  const plain = { width: 8, height: 8, channels: 3, background: "#6a8f7b" } as const;
  const made = await makePicture(await sharp({ create: plain }).png().toBuffer());
  if (made.kind !== "made") throw new Error(`The picture is ${made.kind}.`);
  return made.picture;
}
