import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault } from "../../src/db/events.ts";
import { findForgettable } from "../../src/db/forgettable.ts";
import { makeInvite } from "../../src/db/invites.ts";
import { accountStatus, ask, inviteFor, join, password } from "../joined.ts";
import { keepWork, words } from "../kept.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type What = "person" | "note" | "picture";
type Removed = { what: What; says: string | null; removal: { why: string; by: string } | null };

describe("removal", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const why = "asked to be forgotten";
  const newOne = async (what: What) => {
    if (what === "person") {
      const { id, name } = await join(studio);
      return { which: id, path: `/people/${id}/removal`, says: name };
    }
    const { noteId, sha256 } = await keepWork(studio, studio.ids.author);
    return what === "note"
      ? { which: noteId, path: `/notes/${noteId}/removal`, says: words }
      : { which: sha256, path: `/photos/${sha256}/removal`, says: "a green tile" };
  };

  const whats: What[] = ["person", "note", "picture"];
  const allowed: [Who, number][] = [
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ];
  const table = whats.flatMap((what) =>
    allowed.map(([who, status]) => [what, who, status] as const),
  );

  it.each(table)("of a %s by the %s answers %i", async (what, who, status) => {
    const { which, path } = await newOne(what);
    expect((await studio.send(who, path)).status).toBe(status);
    const answer = await studio.send(who, path, { method: "PUT", json: { why } });
    expect(answer.status).toBe(status);
    const left = await findForgettable(studio.db, { what, which });
    expect(left?.removal?.why).toBe(status === 200 ? why : undefined);
  });

  it.each(whats)("of a %s by form says beforehand what goes and what stays", async (what) => {
    const { path, says } = await newOne(what);
    const page = await (await studio.send("manager", path)).text();
    expect(page).toContain("What goes, for good");
    expect(page).toContain("What stays");
    expect(page).toContain(says);
    const answer = await studio.send("manager", path, { form: { why } });
    expect(answer.status).toBe(303);
    expect(answer.headers.get("location")).toBe(what === "person" ? "/people" : path);
    const after = await (await studio.send("manager", path)).text();
    expect(after).toContain(why);
    if (what !== "picture") expect(after).not.toContain(says);
  });

  it.each(whats)("of a %s needs a reason, and shows the form again", async (what) => {
    const { which, path } = await newOne(what);
    for (const sent of [
      { form: {} },
      { form: { why: "  " } },
      { form: { why: "x".repeat(1001) } },
    ]) {
      const answer = await studio.send("manager", path, sent);
      expect(answer.status).toBe(422);
      expect(await answer.text()).toContain('id="field-why"');
    }
    expect((await findForgettable(studio.db, { what, which }))?.removal).toBeNull();
  });

  it("answers with what is left, and the same a second time", async () => {
    const { path } = await newOne("note");
    const first = await studio.send("manager", path, { method: "PUT", json: { why } });
    const told = (await first.json()) as Removed;
    expect(told).toMatchObject({ what: "note", says: null, removal: { why, by: "Ines Okafor" } });
    const again = await studio.send("manager", path, { method: "PUT", json: { why: "twice" } });
    expect([again.status, await again.json()]).toEqual([200, told]);
  });

  it("signs a person out, closes their way in, and frees name and e-mail", async () => {
    const one = await join(studio, "manager");
    const { path: link } = await makeInvite(studio.db, {
      role: "manager",
      by: one.id,
      at: new Date(),
    });
    const path = `/people/${one.id}/removal`;
    await studio.send("manager", path, { method: "PUT", json: { why } });
    expect(await accountStatus(studio, one.cookie)).toBe(401);
    expect((await ask(studio, link)).status).toBe(404);
    const back = await ask(studio, "/session", { json: { email: one.email, password } });
    expect(back.status).toBe(401);
    expect((await studio.send("manager", `/people/${one.id}`)).status).toBe(404);
    const list = await (await studio.send("manager", "/people")).text();
    expect(list).toContain(`Former member ${one.id.slice(-12)}`);
    expect(list).not.toContain(one.name);
    const invite = await inviteFor(studio, "member");
    const { name, email } = one;
    const rejoined = await ask(studio, "/people", { json: { invite, name, email, password } });
    expect(rejoined.status).toBe(201);
  });

  it("is not for oneself: the last manager stays", async () => {
    const path = `/people/${studio.ids.manager}/removal`;
    const answer = await studio.send("manager", path, { method: "PUT", json: { why } });
    expect(answer.status).toBe(422);
    const upper = `/people/${studio.ids.manager.toUpperCase()}/removal`;
    expect((await studio.send("manager", upper, { method: "PUT", json: { why } })).status).toBe(
      422,
    );
    expect(await accountStatus(studio, studio.cookies.manager)).toBe(200);
  });

  it.each([
    "/people/nonsense/removal",
    "/notes/nonsense/removal",
    "/photos/nonsense/removal",
    `/photos/${"a".repeat(64)}/removal`,
    "/notes/01900000-0000-7000-8000-000000000000/removal",
  ])("finds nothing at %s", async (path) => {
    expect((await studio.send("manager", path)).status).toBe(404);
    const answer = await studio.send("manager", path, { method: "PUT", json: { why } });
    expect(answer.status).toBe(404);
  });

  it("broke nowhere, and the record holds", async () => {
    expect(studio.logged).toEqual([]);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });
});
