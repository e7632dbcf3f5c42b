import { eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { findForgettable } from "../../src/db/forgettable.ts";
import { forget } from "../../src/db/forgetting.ts";
import { editNote } from "../../src/db/note-editing.ts";
import { findNote, findThread } from "../../src/db/notes.ts";
import {
  noteEdits,
  notes,
  noteTexts,
  people,
  photos,
  pictureBytes,
  pictures,
  recipes,
  revisions,
  sessions,
  signInAttempts,
} from "../../src/db/schema/index.ts";
import { countAttempt } from "../../src/db/sign-in-attempts.ts";
import { join } from "../joined.ts";
import { keepWork, words } from "../kept.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("forgetting", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const at = new Date("2026-03-01T10:00:00Z");
  const why = "asked to be forgotten";
  const byManager = () => ({ by: studio.ids.manager, at, why });

  it("takes the words of a note and leaves that there was one", async () => {
    const { noteId } = await keepWork(studio, studio.ids.author);
    const [before] = await studio.db.select().from(notes).where(eq(notes.id, noteId));
    expect(await forget(studio.db, { what: "note", which: noteId, ...byManager() })).toEqual({
      kind: "forgotten",
    });
    expect(await studio.db.select().from(notes).where(eq(notes.id, noteId))).toEqual([before]);
    const [left] = await studio.db.select().from(noteTexts).where(eq(noteTexts.noteId, noteId));
    expect(left).toMatchObject({ text: null, removedBy: studio.ids.manager, removedWhy: why });
    const told = await listEvents(studio.db, { subjectId: noteId, limit: 9 });
    expect(told).toMatchObject([{ kind: "removed", subject: "note", detail: {} }]);
  });

  it("takes the words that a note was given later with the ones before", async () => {
    const { noteId } = await keepWork(studio, studio.ids.author);
    const note = await findNote(studio.db, {
      id: noteId,
      reader: { id: studio.ids.author, role: "member" },
    });
    if (!note) throw new Error("the author does not find the note");
    const edit = { note, by: studio.ids.author, at };
    expect(await editNote(studio.db, { ...edit, text: "A second thought." })).toEqual({
      kind: "edited",
    });
    await forget(studio.db, { what: "note", which: noteId, ...byManager() });
    const left = await studio.db.select().from(noteEdits).where(eq(noteEdits.noteId, noteId));
    expect(left).toMatchObject([
      {
        text: null,
        removedBy: studio.ids.manager,
        removedWhy: why,
        textDigest: expect.any(String),
      },
    ]);
    expect(await findThread(studio.db, { id: noteId })).toMatchObject({ text: null, versions: [] });
    expect(await editNote(studio.db, { ...edit, text: "A third." })).toEqual({
      kind: "removed-before",
    });
  });

  it("takes the bytes of a picture in every width and leaves its digest", async () => {
    const { sha256, tileId, photoId } = await keepWork(studio, studio.ids.author);
    const which = sha256;
    expect(await forget(studio.db, { what: "picture", which, ...byManager() })).toEqual({
      kind: "forgotten",
    });
    const left = await studio.db.select().from(pictureBytes).where(eq(pictureBytes.sha256, sha256));
    expect(left.map((row) => [row.bytes, row.removedWhy])).toEqual([
      [null, why],
      [null, why],
    ]);
    expect(await studio.db.select().from(pictures).where(eq(pictures.sha256, sha256))).toHaveLength(
      1,
    );
    expect(await studio.db.select().from(photos).where(eq(photos.id, photoId))).toHaveLength(1);
    const told = await listEvents(studio.db, { subjectId: tileId, limit: 9 });
    expect(told).toMatchObject([{ kind: "photo removed", detail: { sha256, photo: photoId } }]);
  });

  it("makes a person a pseudonym, signed out, beside all that they put on record", async () => {
    const one = await join(studio, "manager");
    const work = await keepWork(studio, one.id);
    await countAttempt(studio.db, { email: one.email, address: "192.0.2.9", at });
    expect(await forget(studio.db, { what: "person", which: one.id, ...byManager() })).toEqual({
      kind: "forgotten",
    });
    const [left] = await studio.db.select().from(people).where(eq(people.id, one.id));
    expect(left).toMatchObject({
      name: `Former member ${one.id.slice(-12)}`,
      email: null,
      emailKey: null,
      passwordHash: null,
      removedBy: studio.ids.manager,
      removedWhy: why,
    });
    const theirs = (id: string) => eq(sessions.userId, id);
    expect(await studio.db.select().from(sessions).where(theirs(one.id))).toEqual([]);
    expect(await studio.db.select().from(signInAttempts)).toHaveLength(1);
    const [recipe] = await studio.db.select().from(recipes).where(eq(recipes.id, work.recipeId));
    const [revision] = await studio.db
      .select()
      .from(revisions)
      .where(eq(revisions.id, work.revisionId));
    expect([recipe?.ownerId, revision?.authorId]).toEqual([one.id, one.id]);
    expect((await findForgettable(studio.db, { what: "note", which: work.noteId }))?.says).toBe(
      words,
    );
    const told = await listEvents(studio.db, { subjectId: one.id, limit: 9 });
    expect(told.map(({ kind, by }) => [kind, by?.name])).toEqual([
      ["joined", `Former member ${one.id.slice(-12)}`],
      ["removed", "Ines Okafor"],
    ]);
    const everything = JSON.stringify(await listEvents(studio.db, { limit: 1000 }));
    expect(everything).not.toContain(one.name);
    expect(everything).not.toContain(one.email);
  });

  it("does it once, also where two do it at the same moment", async () => {
    const { noteId: which } = await keepWork(studio, studio.ids.author);
    const both = await Promise.all([
      forget(studio.db, { what: "note", which, ...byManager() }),
      forget(studio.db, { what: "note", which, ...byManager() }),
    ]);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["before", "forgotten"]);
    expect(await listEvents(studio.db, { subjectId: which, limit: 9 })).toHaveLength(1);
  });

  it.each(["person", "note"] as const)("finds no %s that never was", async (what) => {
    const nothing = await forget(studio.db, { what, which: uuidv7(), ...byManager() });
    expect(nothing).toEqual({ kind: "nothing-there" });
  });

  it("is not for oneself, whichever way one's id is written", async () => {
    for (const which of [studio.ids.manager, studio.ids.manager.toUpperCase()]) {
      const own = await forget(studio.db, { what: "person", which, ...byManager() });
      expect(own).toEqual({ kind: "oneself" });
    }
  });

  it("is for managers only, for the code and for the database", async () => {
    const { noteId } = await keepWork(studio, studio.ids.author);
    const refused = await forget(studio.db, {
      what: "note",
      which: noteId,
      why,
      by: studio.ids.reviewer,
      at,
    });
    expect(refused).toEqual({ kind: "not-manager" });
    const past = await studio.db
      .execute(sql`select forget('note', ${noteId}, ${studio.ids.reviewer}::uuid, 'x', now())`)
      .then(
        () => "it was let through",
        (error) => String(error.cause ?? error),
      );
    expect(past).toContain("only a manager");
    expect((await findForgettable(studio.db, { what: "note", which: noteId }))?.says).toBe(words);
  });

  it("leaves a manager where two remove each other at the same moment", async () => {
    const two = await join(studio, "manager");
    const both = await Promise.all([
      forget(studio.db, { what: "person", which: two.id, ...byManager() }),
      forget(studio.db, { what: "person", which: studio.ids.manager, why, by: two.id, at }),
    ]);
    expect(both.map(({ kind }) => kind).sort()).toEqual(["forgotten", "not-manager"]);
  });

  it("keeps the record whole", async () => {
    expect(await findChainFault(studio.db)).toBeUndefined();
  });
});
