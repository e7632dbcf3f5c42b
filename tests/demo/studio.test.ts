import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { makeInvite } from "../../src/db/invites.ts";
import { listStrips } from "../../src/db/library.ts";
import { type FoundNote, listNotes } from "../../src/db/notes.ts";
import { listPairs } from "../../src/db/pairs.ts";
import { findByEmail, listPeople } from "../../src/db/people.ts";
import { findRecipe, listForks, setShownTo } from "../../src/db/recipes.ts";
import { findRevision, listRevisions } from "../../src/db/revisions.ts";
import { noteMentions } from "../../src/db/schema/index.ts";
import { openStudio } from "../../src/db/studios.ts";
import { listTiles } from "../../src/db/tiles.ts";
import { demoGlazes } from "../../src/demo/glazes.ts";
import { demoNotes } from "../../src/demo/notes.ts";
import { demoPairs } from "../../src/demo/pairs.ts";
import { demoPeople, emailOf, everyone } from "../../src/demo/people.ts";
import { demoProofs } from "../../src/demo/proofs.ts";
import { openDemoStudio } from "../../src/demo/studio.ts";
import { demoTiles } from "../../src/demo/tiles.ts";
import { verifyPassword } from "../../src/work/passwords.ts";
import { openTestDatabase } from "../engines/open.ts";
import { demoPassword, nothingPrepared, openMadeDemo } from "./studio.ts";

describe("the demo's studio", () => {
  let database: Database;
  const manager = { id: "00000000-0000-7000-8000-000000000000", role: "manager" } as const;
  const library = async (reader: typeof manager | undefined) =>
    (
      await listStrips(database.db, {
        reader,
        now: new Date("2026-11-01T09:00:00Z"),
        search: {},
        limit: 100,
      })
    ).strips;
  const find = async (slug: string) => {
    const recipe = await findRecipe(database.db, { slug, reader: manager });
    if (!recipe) throw new Error(`there is no ${slug}`);
    return recipe;
  };

  beforeAll(async () => {
    database = await openMadeDemo();
  });
  afterAll(() => database.close());

  it("has six people who sign in with its password", async () => {
    const { items } = await listPeople(database.db, {});
    expect(items.map(({ name, role }) => `${name}, ${role}`).sort()).toEqual(
      everyone.map((who) => `${demoPeople[who].name}, ${demoPeople[who].role}`).sort(),
    );
    const stored = await Promise.all(everyone.map((who) => findByEmail(database.db, emailOf(who))));
    const hashes = stored.map((person) => person?.passwordHash);
    expect(new Set(hashes).size).toBe(6);
    for (const hash of hashes) expect(await verifyPassword(hash, demoPassword)).toBe(true);
  });

  it("keeps a record that holds, in the order of time", async () => {
    expect(await findChainFault(database.db)).toBeUndefined();
    const events = await listEvents(database.db, { limit: 10_000 });
    const times = events.map(({ at }) => at.getTime());
    expect(times).toEqual([...times].sort((a, b) => a - b));
    expect(events.length).toBeGreaterThan(150);
    expect(times[0]).toBeGreaterThan(Date.parse("2026-01-01T00:00:00Z"));
    expect(times.at(-1)).toBeLessThan(Date.parse("2026-11-25T00:00:00Z"));
  });

  it("shows a visitor what is public and a manager all of it", async () => {
    const named = (shown: string[]) =>
      demoGlazes
        .filter(({ shownTo }) => shown.includes(shownTo))
        .map(({ name }) => name)
        .sort();
    const names = async (reader: typeof manager | undefined) =>
      (await library(reader)).map(({ name }) => name).sort();
    expect(await names(undefined)).toEqual(named(["public"]));
    expect(await names(manager)).toEqual(named(["public", "studio", "private"]));
    expect(named(["private"])).toEqual(["Sea Fret"]);
    expect(named(["studio"])).toEqual(["Curlew"]);
  });

  it("has a fork two deep", async () => {
    const slack = await find("slack-water");
    const forks = await listForks(database.db, { recipeId: slack.id, reader: undefined });
    expect(forks.map(({ name, number }) => [name, number])).toEqual([["Ebb Green", 2]]);
    const neap = await find("neap-green");
    expect(neap.forkedFrom).toMatchObject({ slug: "ebb-green", number: 2 });
  });

  it("has revisions by the owner and by the manager", async () => {
    const { id, head } = await find("slack-water");
    expect(head).toBe(3);
    const revisions = await listRevisions(database.db, { recipeId: id, limit: 10 });
    expect(revisions.map(({ author }) => author)).toEqual([
      "Ines Okafor",
      "Rukmini Vale",
      "Rukmini Vale",
    ]);
    for (const { message } of revisions) expect(message).not.toBe("");
  });

  it("has one glaze withdrawn, with the reason", async () => {
    const withdrawn = (await library(manager)).filter(({ standing }) => standing === "withdrawn");
    expect(withdrawn.map(({ name }) => name)).toEqual(["Sluice Amber"]);
    expect((await find("sluice-amber")).withdrawn?.why).toContain("Blistered");
  });

  const threads = async () => {
    const all: { name: string; note: FoundNote }[] = [];
    for (const { slug } of await library(manager)) {
      const { id, name } = await find(slug);
      const found = await listNotes(database.db, { recipeId: id });
      all.push(...found.map((note) => ({ name, note })));
    }
    return all;
  };

  it("puts every note where it says, on the whole or on a line", async () => {
    const found = await threads();
    for (const { name, note } of found) {
      const given = demoNotes.find(({ text }) => text === note.text);
      expect(given).toMatchObject({ glaze: name, number: note.revision });
      expect(note.snapshot.material).toBe(given?.line);
    }
    expect(found).toHaveLength(demoNotes.length);
    expect(new Set(demoNotes.map(({ by }) => by))).toEqual(new Set(everyone));
  });

  it("has an open objection with a reply, a closed one, and calls by name", async () => {
    const objections = (await threads()).filter(({ note }) => note.blocking);
    expect(
      objections
        .map(({ name, note: { by, closed, replies } }) =>
          [name, by.name, closed?.by.name ?? "open", replies.length].join(", "),
        )
        .sort(),
    ).toEqual([
      "Mackerel Sky, Jonah Brackley, open, 1",
      "Wrack Line, Rukmini Vale, Rukmini Vale, 1",
    ]);
    expect(await database.db.$count(noteMentions)).toBe(2);
  });

  it("hangs the drawn pictures on their tiles and says that they are drawn", async () => {
    const melts = new Set<string>();
    for (const { slug } of await library(manager)) {
      const { id, head } = await find(slug);
      for (let number = 1; number <= head; number += 1) {
        const revision = await findRevision(database.db, { recipeId: id, number });
        if (revision) melts.add(revision.meltDigest);
      }
    }
    const found = await Promise.all(
      [...melts].map((meltDigest) => listTiles(database.db, { meltDigest, reader: manager })),
    );
    const tiles = found.flat();
    expect(tiles.length).toBe(demoTiles.length + demoPairs.length + demoProofs.length);
    expect(tiles.filter(({ withdrawn }) => withdrawn)).toHaveLength(1);
    expect(tiles.some(({ photos }) => photos.length === 0)).toBe(true);
    const photos = tiles.flatMap(({ photos: hung }) => hung);
    expect(photos).toHaveLength(demoTiles.filter(({ look }) => look).length);
    for (const { alt, width, height } of photos) {
      expect(alt).toContain("drawn for the demo");
      expect([width, height]).toEqual([600, 800]);
    }
  });

  it("has a layered pair with a tile of the two, decorative only", async () => {
    const now = new Date("2026-11-20T09:00:00Z");
    const { items } = await listPairs(database.db, { reader: manager, now, limit: 10 });
    expect(
      items.map(({ over, under, standing: { is, for: use }, known }) =>
        [over.name, under.name, is, use, known.tileIds.size].join(", "),
      ),
    ).toEqual(["Arctic Tern, Black Tern, approved, decorative, 1"]);
  });

  it("keeps what was changed when it starts again", async () => {
    const curlew = await find("curlew");
    const at = new Date("2026-11-20T09:00:00Z");
    const act = { by: curlew.owner.id, at };
    await setShownTo(database.db, { recipeId: curlew.id, shownTo: "public", ...act });
    const before = await listEvents(database.db, { limit: 10_000 });
    const keep = () => Promise.reject(new Error("the password was kept a second time"));
    expect(await openDemoStudio(database.db, nothingPrepared, keep)).toBe("kept");
    expect((await find("curlew")).shownTo).toBe("public");
    expect(await listEvents(database.db, { limit: 10_000 })).toEqual(before);
  });
});

describe("opening the demo where something else is", () => {
  it("leaves another studio as it is", async () => {
    const other = await openTestDatabase();
    await openStudio(other.db, "Another studio");
    const at = new Date("2026-02-01T10:00:00Z");
    await makeInvite(other.db, { role: "manager", by: null, at });
    await expect(openDemoStudio(other.db, nothingPrepared, async () => {})).rejects.toThrow(
      "not the demo's",
    );
    expect(await listEvents(other.db, { limit: 10 })).toHaveLength(1);
    expect((await openStudio(other.db, "Saltmarsh Lane Studio")).name).toBe("Another studio");
    await other.close();
  });

  it("writes nothing where making it fails half-way", async () => {
    const empty = await openTestDatabase();
    const hashes = Promise.reject(new Error("no hashes today"));
    hashes.catch(() => {});
    const failing = () => ({ hashes, pictures: () => new Map() });
    await expect(openDemoStudio(empty.db, failing, async () => {})).rejects.toThrow("no hashes");
    expect(await listEvents(empty.db, { limit: 10 })).toEqual([]);
    await empty.close();
  });
});
