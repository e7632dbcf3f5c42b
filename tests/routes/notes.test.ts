import { and, eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { openObjections } from "../../src/db/objections.ts";
import { noteMentions, recipes, revisionStandings, revisions } from "../../src/db/schema/index.ts";
import type { NoteJson } from "../../src/routes/note-json.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Answered = NoteJson & { detail: string; errors: { path: string; says: string }[] };

describe("the notes on a recipe", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(await findChainFault(studio.db)).toBeUndefined();
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  const send = async (who: Who, path: string, json: object, method = "POST") => {
    const answer = await studio.send(who, path, { json, method });
    return { status: answer.status, answer, body: (await answer.json()) as Answered };
  };
  const put = async (who: Who, json: object = {}, on = slug) =>
    send(who, `/recipes/${on}/notes`, { text: "Crawled at the foot.", ...json });
  const object = async (who: Who, on = slug) =>
    (await put(who, { text: "It crazed on mine.", blocking: true }, on)).body.id;
  const thread = (id: string, who: Who = "manager") => studio.json<NoteJson>(who, `/notes/${id}`);
  const page = async (who: Who, path = `/recipes/${slug}`) => (await studio.send(who, path)).text();
  const eventsOf = async (on = slug) => {
    const [recipe] = await studio.db.select().from(recipes).where(eq(recipes.slug, on));
    return listEvents(studio.db, { subjectId: recipe?.id, limit: 1000 });
  };
  const revisionOf = async (on: string) => {
    const [found] = await studio.db
      .select({ id: revisions.id, digest: revisions.digest })
      .from(revisions)
      .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
      .where(and(eq(recipes.slug, on), eq(revisions.number, 1)));
    if (!found) throw new Error(`${on} has no revision 1`);
    return found;
  };

  describe("who may do what", () => {
    type Action = "put" | "object" | "reply" | "close" | "overrule" | "edit";
    const table: [Action, Record<Who, number>][] = [
      ["put", { visitor: 401, author: 201, "other member": 201, reviewer: 201, manager: 201 }],
      ["object", { visitor: 401, author: 201, "other member": 201, reviewer: 201, manager: 201 }],
      ["reply", { visitor: 401, author: 201, "other member": 201, reviewer: 201, manager: 201 }],
      ["close", { visitor: 401, author: 403, "other member": 200, reviewer: 403, manager: 403 }],
      ["overrule", { visitor: 401, author: 403, "other member": 403, reviewer: 403, manager: 200 }],
      ["edit", { visitor: 401, author: 403, "other member": 200, reviewer: 403, manager: 403 }],
    ];
    const acts: Record<Action, (who: Who, id: string) => Promise<{ status: number }>> = {
      put: (who) => put(who),
      object: (who) => put(who, { blocking: true }),
      reply: (who, id) => send(who, `/notes/${id}/replies`, { text: "Mine too." }),
      close: (who, id) => send(who, `/notes/${id}/answer`, { text: "It was my bisque." }, "PUT"),
      overrule: (who, id) =>
        send(who, `/notes/${id}/answer`, { overrule: true, why: "Five tiles say no." }, "PUT"),
      edit: (who, id) => send(who, `/notes/${id}/text`, { text: "It crazed on two." }, "PUT"),
    };
    const rows = table.flatMap(([action, by]) =>
      everybody.map((who) => [action, who, by[who]] as const),
    );

    it.each(rows)("%s a note that the other member put: %s %i", async (action, who, status) => {
      const id = await object("other member");
      expect((await acts[action](who, id)).status).toBe(status);
    });

    it.each(everybody)("lets nobody know of a private recipe's note: %s", async (who) => {
      const hidden = await publish(studio, { shownTo: "private" });
      const id = await object("author", hidden);
      const known = who === "author" || who === "manager";
      expect((await studio.send(who, `/notes/${id}`, { accept: "application/json" })).status).toBe(
        known ? 200 : 404,
      );
      const refused = who === "visitor" ? 401 : 404;
      for (const action of ["reply", "close", "overrule", "edit"] as const) {
        const { status } = await acts[action](who, id);
        if (known) expect(status, action).not.toBe(404);
        else expect(status, action).toBe(refused);
      }
    });

    it("says what way is open to who may not", async () => {
      const id = await object("other member");
      const close = (who: Who, json: object) => send(who, `/notes/${id}/answer`, json, "PUT");
      const asked = (await close("author", { text: "Not so." })).body.detail;
      expect(asked).toContain("Reply to it, or ask a manager to overrule it with a reason");
      expect((await close("manager", { text: "Not so." })).body.detail).toContain(
        "overrule it with a reason",
      );
      const own = await close("other member", { overrule: true, why: "Mine." });
      expect(own.body.detail).toContain("close it yourself");
      const words = await send("author", `/notes/${id}/text`, { text: "Nothing crazed." }, "PUT");
      expect(words.body.detail).toContain("These are Jonah Brackley's words");
    });
  });

  describe("an objection", () => {
    it("stands against all that says the same until whoever raised it closes it", async () => {
      const on = await publish(studio, {
        lines: [
          ["potash-feldspar", "61"],
          ["whiting", "39"],
        ],
      });
      const { id: revisionId, digest } = await revisionOf(on);
      const standing = async () => {
        const [row] = await studio.db
          .select({ marks: revisionStandings.marks })
          .from(revisionStandings)
          .where(eq(revisionStandings.revisionId, revisionId));
        return row?.marks ?? 0;
      };
      const open = () => openObjections(studio.db, { digests: [digest] });
      const before = await standing();
      await put("other member", {}, on);
      expect(await open()).toEqual([]);
      expect(await standing()).toBe(before);

      const id = await object("other member", on);
      expect(await open()).toEqual([
        {
          id,
          digest,
          recipeId: expect.any(String),
          slug: on,
          name: expect.stringContaining("Slack Water"),
          shownTo: "public",
          number: 1,
          by: { id: studio.ids["other member"], name: "Jonah Brackley" },
          text: "It crazed on mine.",
        },
      ]);
      expect(await standing()).toBe(before + 1);
      expect(await page("visitor", `/recipes/${on}`)).toContain("Objection, open");

      const closed = await send("other member", `/notes/${id}/answer`, { text: "My bisque." });
      expect(closed.body).toMatchObject({
        id,
        blocking: true,
        closed: { by: { name: "Jonah Brackley" }, overruled: false, text: "My bisque." },
        replies: [{ text: "My bisque.", replyTo: id, by: { name: "Jonah Brackley" } }],
      });
      expect(await open()).toEqual([]);
      expect(await standing()).toBe(before + 2);
      expect(await page("visitor", `/recipes/${on}`)).toContain("Objection, closed");
      const told = (await eventsOf(on)).filter(({ subject }) => subject === "recipe");
      expect(told.map(({ kind }) => kind)).toEqual([
        "published",
        "noted",
        "noted",
        "objection closed",
      ]);
      expect(told.at(-2)?.detail).toMatchObject({ note: id, blocking: true });
    });

    it("is overruled by a manager with the reason, for all to read", async () => {
      const id = await object("other member");
      const form = { overrule: "true", why: "Five tiles on two bodies say otherwise." };
      const answer = await studio.send("manager", `/notes/${id}/answer`, { form });
      expect([answer.status, answer.headers.get("location")]).toEqual([
        303,
        `/recipes/${slug}#note-${id}`,
      ]);
      expect(await thread(id)).toMatchObject({
        closed: { by: { name: "Ines Okafor" }, overruled: true, text: form.why },
      });
      const shown = await page("visitor");
      expect(shown).toContain("Objection, overruled");
      expect(shown).toContain(form.why);
      expect((await eventsOf()).at(-1)).toMatchObject({
        kind: "objection overruled",
        by: { name: "Ines Okafor" },
        detail: { note: id },
      });
    });

    it("ends once, also where two end it at the same moment", async () => {
      const id = await object("other member");
      const both = await Promise.all([
        send("other member", `/notes/${id}/answer`, { text: "My bisque." }),
        send("manager", `/notes/${id}/answer`, { overrule: true, why: "No." }),
      ]);
      expect(both.map(({ status }) => status).sort()).toEqual([200, 422]);
      expect((await thread(id)).replies).toHaveLength(1);
      const again = await send("manager", `/notes/${id}/answer`, { overrule: true, why: "No." });
      expect(again.status).toBe(422);
      expect(again.body.errors[0]?.says).toContain("closed before");
    });

    it.each<[string, Who, object, string]>([
      ["no words", "other member", {}, "text"],
      ["overruling without a reason", "manager", { overrule: true }, "why"],
      ["a field that is none", "other member", { text: "Mine.", verdict: "no" }, "verdict"],
    ])("takes no answer with %s", async (_, who, json, path) => {
      const id = await object("other member");
      const { status, body } = await send(who, `/notes/${id}/answer`, json, "PUT");
      expect(status).toBe(422);
      expect(body.errors).toMatchObject([{ path }]);
      expect((await thread(id)).closed).toBeNull();
    });

    it("is not what a plain note or a reply is", async () => {
      const { id } = (await put("other member")).body;
      const reply = await send("other member", `/notes/${id}/replies`, { text: "Or not." });
      for (const which of [id, reply.body.id]) {
        const { status, body } = await send("other member", `/notes/${which}/answer`, {
          text: "Done.",
        });
        expect(status).toBe(422);
        expect(body.errors[0]?.says).toContain("no objection");
      }
    });
  });

  describe("a thread", () => {
    it("takes replies, and a reply to a reply in the same place", async () => {
      const { id } = (await put("author", { anchor: { kind: "line", key: "1" } })).body;
      const first = await send("other member", `/notes/${id}/replies`, { text: "Mine too." });
      expect(first.answer.headers.get("location")).toBe(`/recipes/${slug}#note-${first.body.id}`);
      const second = await send("author", `/notes/${first.body.id}/replies`, { text: "Where?" });
      expect(second.body).toMatchObject({ replyTo: id, text: "Where?", blocking: false });
      const found = await thread(second.body.id, "visitor");
      expect(found.id).toBe(id);
      expect(found.replies.map(({ text }) => text)).toEqual(["Mine too.", "Where?"]);
      const { notes } = await studio.json<{ notes: NoteJson[] }>("visitor", `/recipes/${slug}`);
      expect(notes.find((note) => note.id === id)).toEqual(found);
      expect(notes.some((note) => note.id === second.body.id)).toBe(false);
    });

    it("leads from a note's address to its place on the page", async () => {
      const { id } = (await put("author")).body;
      const answer = await studio.send("visitor", `/notes/${id}`);
      expect([answer.status, answer.headers.get("location")]).toEqual([
        302,
        `/recipes/${slug}#note-${id}`,
      ]);
      expect(await page("visitor")).toContain(`id="note-${id}"`);
      for (const nonsense of ["7", studio.ids.manager, "%00"])
        expect((await studio.send("manager", `/notes/${nonsense}`)).status).toBe(404);
    });

    it("shows the form again with what was typed, and takes a double tap once", async () => {
      const { id } = (await put("author")).body;
      const path = `/notes/${id}/replies`;
      const empty = await studio.send("author", path, { form: { text: "  " } });
      expect(empty.status).toBe(422);
      expect(await empty.text()).toContain('href="#field-text"');
      const long = "x".repeat(8001);
      const tooLong = await (await studio.send("author", path, { form: { text: long } })).text();
      expect(tooLong).toContain("At most 8000 characters.");
      expect(tooLong).toContain(long);
      const form = { text: "Once.", idempotencyKey: `once-${id}` };
      await Promise.all([0, 1].map(() => studio.send("author", path, { form })));
      expect((await thread(id)).replies).toHaveLength(1);
    });
  });

  describe("other words", () => {
    it("stand in place of the ones before, which stay readable", async () => {
      const { id } = (await put("author", { text: "Fired to cone 5." })).body;
      const edited = await send("author", `/notes/${id}/text`, { text: "Fired to cone 6." }, "PUT");
      expect(edited.status).toBe(200);
      expect(edited.body.text).toBe("Fired to cone 6.");
      expect(edited.body.edited).not.toBeNull();
      expect(edited.body.versions.map(({ text }) => text)).toEqual([
        "Fired to cone 5.",
        "Fired to cone 6.",
      ]);
      const shown = await page("visitor");
      expect(shown).toContain("Edited, 2 versions");
      expect(shown).toContain("Fired to cone 5.");
      const last = (await eventsOf()).at(-1);
      expect(last).toMatchObject({ kind: "note edited", detail: { note: id } });
      expect(JSON.stringify(last)).not.toContain("cone");

      const form = { text: "Fired to cone 6." };
      const same = await studio.send("author", `/notes/${id}/text`, { form });
      expect(same.status).toBe(303);
      expect((await thread(id)).versions).toHaveLength(2);
    });

    it("go with the others when a manager has them removed, and do not come again", async () => {
      const { id } = (await put("author", { text: "Call me at the old number." })).body;
      await send("author", `/notes/${id}/text`, { text: "Call me at the new number." });
      await studio.send("manager", `/notes/${id}/removal`, { json: { why: "private" } });
      expect(await thread(id)).toMatchObject({ text: null, versions: [], edited: null });
      const shown = await page("author");
      expect(shown).not.toContain("old number");
      expect(shown).not.toContain("new number");
      const again = await send("author", `/notes/${id}/text`, { text: "Call me." });
      expect(again.status).toBe(422);
      expect((await thread(id)).text).toBeNull();
    });
  });

  describe("where a note hangs", () => {
    it("can be any place that the form offers", async () => {
      const { body: tile } = await send("author", `/recipes/${slug}/tiles`, {
        revision: 1,
        cone: "6",
        clay: "Loft stoneware",
      });
      const form = await page("author");
      for (const [on, says] of [
        ["whole", "revision 1"],
        ["line-1", "Whiting 20"],
        ["oxide-SiO2", /^SiO2 \d\.\d{3} in the unity formula$/],
        [`tile-${tile.id}`, "tile at cone 6 on Loft stoneware"],
      ] as const) {
        expect(form).toContain(`<option value="${on}"`);
        const answer = await studio.send("author", `/recipes/${slug}/notes`, {
          form: { on, revision: "1", text: "Here." },
        });
        const id = answer.headers.get("location")?.split("#note-")[1] ?? "";
        const found = await thread(id);
        if (typeof says === "string") expect(found.on).toBe(says);
        else expect(found.on).toMatch(says);
      }
    });

    it("is told by how it reads on the head now", async () => {
      const on = await publish(studio);
      const whiting = (await put("other member", { anchor: { kind: "line", key: "1" } }, on)).body;
      const iron = (await put("other member", { anchor: { kind: "line", key: "4" } }, on)).body;
      const lime = (await put("other member", { anchor: { kind: "oxide", key: "CaO" } }, on)).body;
      expect((await thread(whiting.id)).moved).toBeNull();
      const next = revision({ basedOn: 1, message: "Less lime" }, [
        ["kaolin", "15"],
        ["potash-feldspar", "42"],
        ["whiting", "18"],
        ["quartz", "25"],
      ]);
      expect((await studio.send("author", `/recipes/${on}/revisions`, { json: next })).status).toBe(
        201,
      );
      expect((await thread(whiting.id)).moved).toBe("on revision 1: Whiting 20; now 18");
      expect((await thread(iron.id)).moved).toBe("Red iron oxide is no longer in it");
      expect((await thread(lime.id)).moved).toMatch(
        /^CaO 0\.\d{3} in the unity formula then, 0\.\d{3} now$/,
      );
      const shown = await page("visitor", `/recipes/${on}`);
      expect(shown).toContain("Moved since: on revision 1: Whiting 20; now 18.");
      // “Now” is the head, whichever revision is looked at.
      const old = await page("visitor", `/recipes/${on}/revisions/1`);
      expect(old).toContain("Moved since: on revision 1: Whiting 20; now 18.");
    });

    it("keeps the tick of an objection when the form has to come again", async () => {
      const answer = await studio.send("author", `/recipes/${slug}/notes`, {
        form: { on: "line-1", revision: "1", text: "", blocking: "on" },
      });
      expect(answer.status).toBe(422);
      const form = await answer.text();
      expect(form).toMatch(/<input[^>]*name="blocking"[^>]*checked/);
      expect(form).toMatch(/<option value="line-1" selected/);
    });

    it.each(["line-9", "oxide-Xx2O", "tile-7", `tile-${"0".repeat(36)}`])(
      "is no place that the revision does not have: %s",
      async (on) => {
        const answer = await studio.send("author", `/recipes/${slug}/notes`, {
          form: { on, revision: "1", text: "Nowhere." },
        });
        expect(answer.status).toBe(422);
        const form = await answer.text();
        expect(form).toContain('href="#field-on"');
        expect(form).toMatch(/<textarea[^>]*>Nowhere\.<\/textarea>/);
      },
    );
  });

  it("keeps whom it calls by name, once, and nobody who may not know of the recipe", async () => {
    const called = async (noteId: string) =>
      (await studio.db.select().from(noteMentions).where(eq(noteMentions.noteId, noteId)))
        .map(({ personId }) => personId)
        .sort();
    const { ids } = studio;
    const { id } = (await put("author", { text: "@Tam, look. Ask jonah@saltmarsh.example." })).body;
    expect(await called(id)).toEqual([ids.reviewer]);
    const text = "@Tam and @Ines Okafor, look.";
    await send("author", `/notes/${id}/text`, { text }, "PUT");
    expect(await called(id)).toEqual([ids.manager, ids.reviewer].sort());
    const reply = await send("reviewer", `/notes/${id}/replies`, { text: "@rukmini: seen." });
    expect(await called(reply.body.id)).toEqual([ids.author]);

    const hidden = await publish(studio, { shownTo: "private" });
    const secret = (await put("author", { text: "@Tam and @Ines?" }, hidden)).body;
    expect(await called(secret.id)).toEqual([ids.manager]);
  });

  it("tells of all its calls in the description", async () => {
    const { paths } = await studio.json<{ paths: Record<string, object> }>(
      "visitor",
      "/openapi.json",
    );
    expect(Object.keys(paths["/notes/{id}"] ?? {})).toEqual(["get"]);
    expect(Object.keys(paths["/notes/{id}/replies"] ?? {})).toEqual(["post"]);
    for (const path of ["/notes/{id}/answer", "/notes/{id}/text"])
      expect(Object.keys(paths[path] ?? {}).sort()).toEqual(["post", "put"]);
  });
});
