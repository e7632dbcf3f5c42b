import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DraftLine } from "../../src/db/drafts.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { addPhoto } from "../../src/db/pictures.ts";
import { publishRevision } from "../../src/db/publishing.ts";
import { addTile, findTile, listTiles, withdrawTile } from "../../src/db/tiles.ts";
import { fakePicture } from "../camera.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-03-01T10:00:00Z");
const fired = { cone: "6", clay: "Loft stoneware", firedOn: "2026-02-27", remark: "" } as const;

describe("tiles", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(() => studio.close());

  const reader = () => ({ id: studio.ids["other member"], role: "member" as const });
  const add = async (recipeId: string, more: Partial<Parameters<typeof addTile>[1]> = {}) => {
    const by = studio.ids.author;
    const added = await addTile(studio.db, { recipeId, number: 1, ...fired, by, at, ...more });
    if (added.kind !== "added") throw new Error(`not added but ${added.kind}`);
    return added.id;
  };
  const refused = (statement: string) =>
    studio.db.execute(sql.raw(statement)).then(
      () => "taken",
      (error) => String(error.cause ?? error),
    );

  it("keeps what was fired, in the revision's atmosphere where none is said", async () => {
    const glaze = await publishGlaze(studio, { name: "Slack Water", lines });
    const id = await add(glaze.id);
    const other = await add(glaze.id, { atmosphere: "reduction" });
    expect(await findTile(studio.db, { id, reader: reader() })).toMatchObject({
      recipe: { slug: "slack-water", name: "Slack Water" },
      number: 1,
      claimed: { low: "5", high: "6" },
      ...fired,
      atmosphere: "oxidation",
      by: { name: "Rukmini Vale" },
      at,
      withdrawn: null,
      photos: [],
    });
    expect(await findTile(studio.db, { id: other, reader: reader() })).toMatchObject({
      atmosphere: "reduction",
    });
  });

  it("says who did it in the chain of events, in ids and fixed words", async () => {
    const glaze = await publishGlaze(studio, { name: "Ebb Green", lines });
    const id = await add(glaze.id, { remark: "Crawled at the edge" });
    await withdrawTile(studio.db, { tileId: id, why: "Wrong bucket", by: studio.ids.manager, at });
    const events = await listEvents(studio.db, { subjectId: id, limit: 10 });
    expect(events.map(({ kind, by }) => [kind, by?.name])).toEqual([
      ["tile added", "Rukmini Vale"],
      ["tile withdrawn", "Ines Okafor"],
    ]);
    expect(events[0]?.detail).toEqual({
      revision: glaze.revision.id,
      melt: glaze.revision.meltDigest,
      cone: "6",
      atmosphere: "oxidation",
    });
    expect(JSON.stringify(events)).not.toMatch(/Crawled|Wrong bucket/);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });

  it("lists the tiles of a melt whatever they were fired for, newest last", async () => {
    const own = lines.slice(0, 3);
    const glaze = await publishGlaze(studio, { name: "Sandpiper Matt", lines: own });
    const twin = await publishGlaze(studio, { name: "Sandpiper Twin", lines: own });
    const hidden = await publishGlaze(studio, { name: "Own", lines: own, shownTo: "private" });
    const act = { by: studio.ids.author, at };
    await publishRevision(studio.db, {
      recipeId: glaze.id,
      basedOn: 1,
      draft: glaze.draft,
      ...act,
    });
    const changed = { ...glaze.draft, lines: lines.slice(0, 2) };
    await publishRevision(studio.db, { recipeId: glaze.id, basedOn: 2, draft: changed, ...act });

    const first = await add(glaze.id);
    const ofTwin = await add(twin.id);
    const second = await add(glaze.id, { number: 2 });
    await add(glaze.id, { number: 3 });
    const secret = await add(hidden.id);

    const { meltDigest } = glaze.revision;
    const seenBy = async (who: Parameters<typeof listTiles>[1]["reader"]) =>
      (await listTiles(studio.db, { meltDigest, reader: who })).map(({ id }) => id);
    expect(await seenBy(reader())).toEqual([first, ofTwin, second]);
    expect(await seenBy(undefined)).toEqual([first, ofTwin, second]);
    expect(await seenBy({ id: studio.ids.author, role: "member" })).toContain(secret);
  });

  it("keeps a withdrawn tile in the list, with the reason, and withdraws it once", async () => {
    const glaze = await publishGlaze(studio, { name: "Wrack Line", lines: lines.slice(1) });
    const id = await add(glaze.id);
    const act = { tileId: id, by: studio.ids.author, at };
    const both = await Promise.all([
      withdrawTile(studio.db, { ...act, why: "It was another glaze" }),
      withdrawTile(studio.db, { ...act, why: "It was another glaze" }),
    ]);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["withdrawn", "withdrawn-before"]);
    const { meltDigest } = glaze.revision;
    expect(await listTiles(studio.db, { meltDigest, reader: reader() })).toMatchObject([
      { id, withdrawn: { why: "It was another glaze", by: "Rukmini Vale", at } },
    ]);
    expect(await listEvents(studio.db, { subjectId: id, limit: 10 })).toHaveLength(2);
  });

  it("lists pictures in the order in which they came, removed ones marked", async () => {
    const glaze = await publishGlaze(studio, { name: "Mackerel Sky", lines: lines.slice(2) });
    const tileId = await add(glaze.id);
    const by = studio.ids.author;
    for (const shade of [7, 3, 5]) {
      await addPhoto(studio.db, {
        tileId,
        picture: fakePicture(shade),
        alt: `No ${shade}`,
        by,
        at,
      });
    }
    await studio.db.execute(
      sql`select forget('picture', ${fakePicture(3).sha256}, ${studio.ids.manager}, 'A face', now())`,
    );
    const { meltDigest } = glaze.revision;
    const [tile] = await listTiles(studio.db, { meltDigest, reader: reader() });
    expect(tile?.photos.map(({ alt, removed, width }) => [alt, removed, width])).toEqual([
      ["No 7", false, 40],
      ["No 3", true, 40],
      ["No 5", false, 40],
    ]);
  });

  it("knows no tile of a revision that is not there, and none by a broken id", async () => {
    const glaze = await publishGlaze(studio, { name: "Spindrift", lines });
    const act = { by: studio.ids.author, at };
    expect(await addTile(studio.db, { recipeId: glaze.id, number: 2, ...fired, ...act })).toEqual({
      kind: "no-such-revision",
    });
    expect(await findTile(studio.db, { id: "7", reader: reader() })).toBeUndefined();
  });

  it.each<["author" | "other member" | "reviewer" | "manager", boolean]>([
    ["author", true],
    ["other member", true],
    ["reviewer", false],
    ["manager", true],
  ])("lets the recipe's owner, who added it, and managers change it: %s %s", async (who, may) => {
    const name = `Owned, asked by ${who}`;
    const glaze = await publishGlaze(studio, { name, lines });
    const id = await add(glaze.id, { by: studio.ids["other member"] });
    const role = who === "author" || who === "other member" ? "member" : who;
    const tile = await findTile(studio.db, { id, reader: { id: studio.ids[who], role } });
    expect(tile?.mayChange).toBe(may);
  });

  it("never changes a row that is on record", async () => {
    for (const table of ["tiles", "tile_withdrawals", "pictures", "photos"]) {
      expect(await refused(`delete from ${table}`), table).toContain("append-only");
    }
  });

  it("keeps a cone that is shaped like one only", async () => {
    const glaze = await publishGlaze(studio, { name: "Neap", lines });
    const row = `'${glaze.revision.id}', 'six', 'oxidation', '', '', '${studio.ids.author}', now()`;
    const insert = `insert into tiles (id, revision_id, cone, atmosphere, clay, remark, by, at)`;
    expect(await refused(`${insert} values (gen_random_uuid(), ${row})`)).toContain(
      "tiles_cone_shape",
    );
  });
});
