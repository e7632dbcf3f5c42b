import { count, eq, sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { addPhoto, findPicture } from "../../src/db/pictures.ts";
import { photos, pictureBytes, pictures, type Visibility } from "../../src/db/schema/index.ts";
import { addTile } from "../../src/db/tiles.ts";
import { fakePicture } from "../camera.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-03-01T10:00:00Z");

describe("pictures", () => {
  let studio: TestStudio;
  let newTile: (shownTo?: Visibility) => Promise<string>;
  let act: { by: string; at: Date };
  beforeAll(async () => {
    studio = await openTestStudio();
    const lines = await stockShelf(studio);
    act = { by: studio.ids.author, at };
    let n = 0;
    newTile = async (shownTo = "public") => {
      n += 1;
      const glaze = await publishGlaze(studio, { name: `Glaze ${n}`, lines, shownTo });
      const fired = { cone: "6", clay: "", firedOn: null, remark: "" } as const;
      const tile = await addTile(studio.db, { recipeId: glaze.id, number: 1, ...fired, ...act });
      if (tile.kind !== "added") throw new Error("no tile");
      return tile.id;
    };
  });
  afterAll(() => studio.close());

  const rowsOf = async (sha256: string) => {
    const tally = async (table: typeof pictures | typeof pictureBytes | typeof photos) =>
      (await studio.db.select({ n: count() }).from(table).where(eq(table.sha256, sha256)))[0]?.n;
    return [await tally(pictures), await tally(pictureBytes), await tally(photos)];
  };
  const as = (who: "author" | "other member") => ({ id: studio.ids[who], role: "member" as const });

  it("keeps a master and three widths, and gives each back byte for byte", async () => {
    const picture = fakePicture(1);
    await addPhoto(studio.db, { tileId: await newTile(), picture, alt: "", ...act });
    expect(await rowsOf(picture.sha256)).toEqual([1, 4, 1]);
    const { sha256 } = picture;
    const bytesAt = async (width: 0 | 200 | 600 | 1200) => {
      const found = await findPicture(studio.db, { sha256, width, reader: undefined });
      return found?.kind === "found" ? [...found.bytes] : found;
    };
    expect(await bytesAt(0)).toEqual([...picture.bytes]);
    for (const { width, bytes } of picture.smaller)
      expect(await bytesAt(width)).toEqual([...bytes]);
  });

  it("keeps equal pictures once, wherever they hang", async () => {
    const [one, other, picture] = [await newTile(), await newTile(), fakePicture(2)];
    const added = await addPhoto(studio.db, { tileId: one, picture, alt: "", ...act });
    expect(await addPhoto(studio.db, { tileId: one, picture, alt: "", ...act })).toEqual({
      ...added,
      kind: "there-already",
    });
    await addPhoto(studio.db, { tileId: other, picture, alt: "", ...act });
    expect(await rowsOf(picture.sha256)).toEqual([1, 4, 2]);
    const events = await listEvents(studio.db, { subjectId: one, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["tile added", "photo added"]);
    expect(events[1]?.detail).toEqual({
      photo: "id" in added ? added.id : "",
      sha256: picture.sha256,
    });
  });

  it("hangs a new picture once where it is sent twice at the same moment", async () => {
    const params = { tileId: await newTile(), picture: fakePicture(3), alt: "", ...act };
    const both = await Promise.all([addPhoto(studio.db, params), addPhoto(studio.db, params)]);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["added", "there-already"]);
    expect(await rowsOf(params.picture.sha256)).toEqual([1, 4, 1]);
  });

  it("shows a picture of a private recipe to its owner and managers only", async () => {
    const picture = fakePicture(4);
    const { sha256 } = picture;
    await addPhoto(studio.db, { tileId: await newTile("private"), picture, alt: "", ...act });
    const find = (reader: Parameters<typeof findPicture>[1]["reader"]) =>
      findPicture(studio.db, { sha256, width: 200, reader });
    expect(await find(undefined)).toBeUndefined();
    expect(await find(as("other member"))).toBeUndefined();
    expect(await find(as("author"))).toMatchObject({ kind: "found" });
    expect(await find({ id: studio.ids.manager, role: "manager" })).toMatchObject({
      kind: "found",
    });
    await addPhoto(studio.db, { tileId: await newTile("studio"), picture, alt: "", ...act });
    expect(await find(as("other member"))).toMatchObject({ kind: "found" });
    expect(await find(undefined)).toBeUndefined();
  });

  it("does not bring back a picture that was removed", async () => {
    const [tileId, picture] = [await newTile(), fakePicture(5)];
    const { sha256 } = picture;
    await addPhoto(studio.db, { tileId, picture, alt: "", ...act });
    const why = "A child is in it.";
    await studio.db.execute(
      sql`select forget('picture', ${sha256}, ${studio.ids.manager}, ${why}, ${at.toISOString()}::timestamptz)`,
    );
    for (const width of [0, 200, 600, 1200] as const) {
      const found = await findPicture(studio.db, { sha256, width, reader: undefined });
      expect(found).toEqual({ kind: "removed", at });
    }
    const again = { tileId: await newTile(), picture, alt: "", ...act };
    expect(await addPhoto(studio.db, again)).toEqual({ kind: "removed", why });
    expect(await rowsOf(sha256)).toEqual([1, 4, 1]);
  });

  it("writes nothing where one part of it cannot be kept", async () => {
    const params = {
      tileId: await newTile(),
      picture: fakePicture(6),
      alt: "x".repeat(501),
      ...act,
    };
    const refused = await addPhoto(studio.db, params).catch((error) => String(error.cause));
    expect(refused).toContain("photos_alt_length");
    expect(await rowsOf(params.picture.sha256)).toEqual([0, 0, 0]);
  });

  it("knows nothing by what is no digest", async () => {
    for (const sha256 of ["", "x", "\0", "A".repeat(64), fakePicture(250).sha256]) {
      expect(await findPicture(studio.db, { sha256, width: 0, reader: undefined })).toBeUndefined();
    }
  });
});
