import { inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import type { Draft } from "./drafts.ts";
import { appendEvents } from "./events.ts";
import { foldName, slugOf, slugsFor } from "./names.ts";
import { publishRecipe } from "./publishing.ts";
import { type Offered, publication, recipeRow, revisionRows } from "./publishing-rows.ts";
import {
  chemistries,
  recipes,
  revisionLines,
  revisionStandings,
  revisions,
} from "./schema/index.ts";

/** How many go into a statement: no table here comes near 65,535 values with as many. */
const perBatch = 400;

export type ManyPublished = { published: number; nameTaken: number };

/**
 * New recipes by the hundred, each with all that publishing one alone leaves: its first revision,
 * lines, chemistry and event. A name that is in the library already is left out and counted. Each
 * batch is one transaction, so what was published stays when a later batch fails.
 */
export async function publishMany(
  db: Db,
  offered: Iterable<Offered & { draft: Draft }>,
): Promise<ManyPublished> {
  const done = { published: 0, nameTaken: 0 };
  for (const batch of inBatches(offered)) {
    const published = await db.transaction((tx) => publishBatch(tx, batch));
    done.published += published.size;
    done.nameTaken += batch.length - published.size;
  }
  return done;
}

/**
 * As `publishMany`, in the transaction of a change that they belong to.
 *
 * @returns the id of each that was published: offered → id. What has no entry has a taken name.
 */
export async function publishAllOf<Each extends Offered & { draft: Draft }>(
  tx: Db,
  offered: readonly Each[],
): Promise<Map<Each, string>> {
  const published = new Map<Each, string>();
  for (const batch of inBatches(offered))
    for (const [each, id] of await publishBatch(tx, batch)) published.set(each, id);
  return published;
}

function* inBatches<Each>(all: Iterable<Each>): Generator<Each[]> {
  let batch: Each[] = [];
  for (const each of all) {
    batch.push(each);
    if (batch.length < perBatch) continue;
    yield batch;
    batch = [];
  }
  if (batch.length > 0) yield batch;
}

type Named = { id: string; offered: Offered & { draft: Draft } };

/** @returns which of them are new, with their ids. */
async function publishBatch<Each extends Named["offered"]>(
  tx: Db,
  batch: readonly Each[],
): Promise<Map<Each, string>> {
  const published = new Map<Each, string>();
  const fresh = await leaveOutTaken(tx, batch);
  if (fresh.length === 0) return published;
  const named = fresh.map((offered) => ({ id: uuidv7(), offered }));
  const made = await tx
    .insert(recipes)
    .values(named.map(({ id, offered }) => recipeRow(offered, { id, slug: addressOf(offered) })))
    .onConflictDoNothing()
    .returning({ id: recipes.id });
  const isMade = new Set(made.map(({ id }) => id));
  await insertFirstRevisions(
    tx,
    named.filter(({ id }) => isMade.has(id)),
  );
  // Where the plain address is taken, publishing one alone finds another.
  for (const { id, offered } of named) {
    if (isMade.has(id)) {
      published.set(offered, id);
      continue;
    }
    const alone = await publishRecipe(tx, offered);
    if (alone.kind === "published") published.set(offered, alone.id);
  }
  return published;
}

async function leaveOutTaken<Each extends Offered>(tx: Db, batch: readonly Each[]) {
  const keys = batch.map(({ name }) => foldName(name));
  const taken = await tx
    .select({ key: recipes.nameKey })
    .from(recipes)
    .where(inArray(recipes.nameKey, keys));
  const isTaken = new Set(taken.map(({ key }) => key));
  return batch.filter((_, place) => !isTaken.has(keys[place] ?? ""));
}

/** The first address to try; `new` is where a form is, so no recipe gets that. */
function addressOf({ name }: Offered): string {
  const [first = slugOf(name)] = slugsFor(name);
  return first;
}

async function insertFirstRevisions(tx: Db, made: readonly Named[]): Promise<void> {
  if (made.length === 0) return;
  const rows = made.map(({ id, offered: { draft, by, at, forkedFrom } }) => {
    const first = revisionRows({ recipeId: id, number: 1, basedOn: null, draft, by, at });
    const { digest } = first.revision;
    const happened = { act: { by, at }, happening: publication(id, { digest, forkedFrom }) };
    return { ...first, happened };
  });
  await tx.insert(revisions).values(rows.map(({ revision }) => revision));
  await tx.insert(revisionLines).values(rows.flatMap(({ lines }) => lines));
  await tx.insert(chemistries).values(rows.map(({ chemistry }) => chemistry));
  await tx.insert(revisionStandings).values(rows.map(({ standing }) => standing));
  await appendEvents(
    tx,
    rows.map(({ happened }) => happened),
  );
}
