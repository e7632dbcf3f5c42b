import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findKeptFaults, keepLibraryAnew } from "../../src/db/library-kept.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { stand } from "../waiting.ts";

describe("what the library is searched by", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio, {
      different: { surface: "Sélénite", about: "Œuvre of few words." },
    });
  });
  afterAll(() => studio.close());

  const row = async () => {
    const [kept] = await studio.db
      .select({
        standing: sql<string>`"is"`,
        until: sql<string | null>`approved_until::text`,
        shownTo: sql<string>`recipe_heads.shown_to`,
        surface: sql<string>`surface_key`,
        silica: sql<number>`round(unity_sio2::numeric, 2)::float8`,
      })
      .from(sql`recipe_heads join recipes on recipes.id = recipe_id`)
      .where(sql`slug = ${slug}`);
    return kept;
  };
  const sent = async (
    path: string,
    json: unknown,
    method = "POST",
    who: "author" | "manager" = "author",
  ) => expect((await studio.send(who, path, { method, json })).status).toBeLessThan(300);

  it("follows whatever changes it, at once", async () => {
    expect(await row()).toMatchObject({
      standing: "draft",
      shownTo: "public",
      surface: "selenite",
    });
    await sent(`/recipes/${slug}/visibility`, { shownTo: "studio" }, "PUT");
    expect(await row()).toMatchObject({ shownTo: "studio" });
    await stand(studio, slug, { is: "approved", for: "functional" });
    expect(await row()).toMatchObject({ standing: "approved", until: "infinity" });
    const note = { text: "Is it too thin?", blocking: true };
    await sent(`/recipes/${slug}/notes`, note);
    expect(await row()).toMatchObject({ until: null });
    const next = {
      basedOn: 1,
      ...revision({ surface: "wax" }, [
        ["quartz", "80"],
        ["whiting", "20"],
      ]),
    };
    await sent(`/recipes/${slug}/revisions`, next);
    expect(await row()).toMatchObject({ standing: "draft", surface: "wax" });
    await sent(`/recipes/${slug}/withdrawal`, { why: "It runs." }, "PUT");
    await studio.json("author", `/recipes/${slug}`);
    expect(await row()).toMatchObject({ standing: "withdrawn" });
    await studio.db.execute(sql`update chemistries set unity_sio2 = 7.25`);
    expect(await row()).toMatchObject({ silica: 7.25 });
    expect(await findKeptFaults(studio.db)).toEqual([]);
  });

  it("is told of where it is not what the record says, and put right from the record", async () => {
    await studio.db.execute(sql`update recipe_heads set surface_key = 'chalk'`);
    await studio.db.execute(sql`update recipe_words set words = ''`);
    await studio.db.execute(sql`delete from spellings where word = 'slack'`);
    const faults = await findKeptFaults(studio.db);
    expect(faults.map(({ what }) => what)).toEqual(["heads", "spellings", "words"]);
    await keepLibraryAnew(studio.db);
    expect(await findKeptFaults(studio.db)).toEqual([]);
  });

  it("loses no words of notes that are put at one moment", async () => {
    const words = ["osprey", "godwit", "whimbrel", "turnstone"];
    await Promise.all(words.map((text) => sent(`/recipes/${slug}/notes`, { text })));
    for (const word of words) {
      const { items } = await studio.json<{ items: { slug: string }[] }>(
        "author",
        `/recipes?q=${word}`,
      );
      expect(items.map((item) => item.slug)).toEqual([slug]);
    }
    expect(await findKeptFaults(studio.db)).toEqual([]);
  });
});
