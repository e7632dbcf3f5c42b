import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { DraftLine } from "../../src/db/drafts.ts";
import { listEvents } from "../../src/db/events.ts";
import { findFamily, listFamilies } from "../../src/db/families.ts";
import { addFamily, changeFamily, findNamedRecipes } from "../../src/db/family-keeping.ts";
import { publishGlaze, stockShelf } from "../glazes.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-06-01T10:00:00Z");

describe("families on record", () => {
  let studio: TestStudio;
  let lines: DraftLine[];
  let made = 0;
  beforeAll(async () => {
    studio = await openTestStudio();
    lines = await stockShelf(studio);
  });
  afterAll(() => studio.close());

  const glaze = async (shownTo: "public" | "private" = "public") => {
    made += 1;
    return publishGlaze(studio, { name: `Tern ${made}`, lines, shownTo });
  };
  const author = () => ({ id: studio.ids.author, role: "member" as const });
  const other = () => ({ id: studio.ids["other member"], role: "member" as const });
  const add = (name: string, recipeIds: string[], by = studio.ids.author) =>
    addFamily(studio.db, { name, intro: "", recipeIds, by, at });
  const find = (slug: string, reader: ReturnType<typeof author> | undefined) =>
    findFamily(studio.db, { slug, reader, now: at });

  it("keeps recipes in the order given, and leaves out what a reader may not know of", async () => {
    const [one, two, own] = [await glaze(), await glaze(), await glaze("private")];
    expect(await add("The terns", [two.id, own.id, one.id])).toEqual({
      kind: "added",
      slug: "the-terns",
    });
    const names = async (reader: ReturnType<typeof author> | undefined) => {
      const family = await find("the-terns", reader);
      return [family?.recipes.map(({ slug }) => slug), family?.leftOut];
    };
    expect(await names(author())).toEqual([[two.slug, own.slug, one.slug], 0]);
    expect(await names(other())).toEqual([[two.slug, one.slug], 1]);
    expect(await names(undefined)).toEqual([[two.slug, one.slug], 1]);
    const family = await find("the-terns", undefined);
    expect(family?.recipes[0]).toMatchObject({
      standing: { is: "draft" },
      revision: { number: 1 },
    });
  });

  it("has one family of a name, however it is written, and one of two at the same moment", async () => {
    const { id } = await glaze();
    await add("The gulls", [id]);
    expect(await add("THE  gulls", [id])).toEqual({ kind: "name-taken", slug: "the-gulls" });
    const both = await Promise.all([add("The skuas", [id]), add("The skuas", [id])]);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["added", "name-taken"]);
  });

  it("keeps in a family what whoever changes it may not see", async () => {
    const [one, two, hidden] = [await glaze(), await glaze(), await glaze("private")];
    await add("The waders", [hidden.id, one.id], studio.ids.manager);
    const familyId = (await find("the-waders", author()))?.id ?? "";
    const given = { name: "Waders", intro: "New.", by: studio.ids["other member"], at };
    const done = await changeFamily(studio.db, {
      ...given,
      familyId,
      recipeIds: [two.id],
      reader: other(),
    });
    expect(done).toEqual({ kind: "changed" });
    const family = await find("the-waders", author());
    expect(family).toMatchObject({ name: "Waders", intro: "New.", slug: "the-waders" });
    expect(family?.recipes.map(({ slug }) => slug)).toEqual([two.slug, hidden.slug]);
    const [last] = await listEvents(studio.db, { before: "the end", limit: 1 });
    expect(last).toMatchObject({
      kind: "family changed",
      subjectId: familyId,
      detail: { recipes: 2 },
    });

    await add("The plovers", [one.id]);
    const taken = { ...given, name: "the Plovers", familyId, recipeIds: [one.id], reader: other() };
    expect(await changeFamily(studio.db, taken)).toEqual({
      kind: "name-taken",
      slug: "the-plovers",
    });
    expect((await find("the-waders", author()))?.recipes).toHaveLength(2);
  });

  it("finds recipes by slug or name within the scope only", async () => {
    const [one, hidden] = [await glaze(), await glaze("private")];
    const typed = [one.slug, hidden.slug, "TERN  1", "nothing"];
    const found = await findNamedRecipes(studio.db, { typed, reader: other() });
    expect([...found.keys()]).toEqual([one.slug, "TERN  1"]);
    expect(found.get("TERN  1")?.slug).toBe("tern-1");
    expect((await findNamedRecipes(studio.db, { typed, reader: author() })).size).toBe(3);
  });

  it("lists them by name, a page at a time", async () => {
    const first = await listFamilies(studio.db, { reader: undefined, limit: 2 });
    expect(first.families.map(({ name }) => name)).toEqual(["The gulls", "The plovers"]);
    const rest = await listFamilies(studio.db, {
      reader: undefined,
      after: first.next ?? "",
      limit: 50,
    });
    expect(rest.families.map(({ name }) => name)).toEqual(["The skuas", "The terns", "Waders"]);
    expect(rest.next).toBeNull();
    expect(rest.families[1]).toMatchObject({ leftOut: 1, addedBy: { name: "Rukmini Vale" } });
  });

  it("gives a name to one of two that are renamed at the same moment", async () => {
    const { id } = await glaze();
    const families = ["The wagtails", "The wheatears"];
    for (const name of families) await add(name, [id]);
    const ids = await Promise.all(
      ["the-wagtails", "the-wheatears"].map(async (slug) => (await find(slug, author()))?.id ?? ""),
    );
    const both = await Promise.all(
      ids.map((familyId) =>
        changeFamily(studio.db, {
          ...{ familyId, name: "The whinchats", intro: "", recipeIds: [id] },
          ...{ reader: author(), by: studio.ids.author, at },
        }),
      ),
    );
    expect(both.map(({ kind }) => kind).sort()).toEqual(["changed", "name-taken"]);
  });
});
