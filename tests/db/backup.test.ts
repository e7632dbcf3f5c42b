import { mkdtemp, readdir, readFile, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { eq } from "drizzle-orm";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { readChain } from "../../src/db/chain.ts";
import type { Db } from "../../src/db/client.ts";
import { people, shareLinks } from "../../src/db/schema/index.ts";
import { backUp, backUpIfDue, listBackups } from "../../src/work/backing-up.ts";
import { hashPassword, verifyPassword } from "../../src/work/passwords.ts";
import { holdsSecrets, restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openTestDatabase } from "../engines/open.ts";
import { exportOf, filesIn, rowsIn } from "../exports.ts";
import { openSmallStudio } from "../made-export.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const now = new Date("2026-11-20T03:00:00Z");

describe("a backup", () => {
  let folder: string;
  let studio: TestStudio;
  let slug: string;
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "bucket-backup-"));
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterEach(async () => {
    await studio.close();
    await rm(folder, { recursive: true, force: true });
  });

  const restored = async (path: string, check: (db: Db) => Promise<void>) => {
    const target = await openTestDatabase();
    try {
      const bytes = await readFile(path);
      const { head } = JSON.parse(
        (await filesIn(bytes)).get("manifest.json")?.toString("utf8") ?? "{}",
      );
      expect(await restoreLibrary(target.db, { path }, { now })).toMatchObject({
        kind: "restored",
        head,
      });
      expect(await verify(target.db, { last: head, now })).toMatchObject({ sound: true });
      await check(target.db);
    } finally {
      await target.close();
    }
  };

  it("made while people publish comes back whole, and its record holds", async () => {
    let under = true;
    let published = 0;
    const publishing = async () => {
      for (; under; published += 1) await publish(studio);
    };
    const revising = async () => {
      for (let head = 1; under; head += 1) {
        const more = { ...revision({ message: "again" }), basedOn: head };
        await studio.send("author", `/recipes/${slug}/revisions`, { json: more });
      }
    };
    // The embedded engine answers in this very thread: whoever works beside it here holds up the files
    // that a backup is written to, not its rows.
    const load = process.env.BUCKET_ENGINE === "postgres" ? [publishing(), revising()] : [];
    // A few requests have to be under way, and a few to follow.
    await publish(studio);
    let path: string;
    try {
      path = await backUp(studio.db, folder, now);
    } finally {
      under = false;
      await Promise.all(load);
    }
    if (load.length > 0) expect(published).toBeGreaterThan(0);

    const files = await filesIn(await readFile(path));
    const recipeIds = new Set(rowsIn(files, "recipes").map(({ id }) => id));
    for (const { recipeId } of rowsIn(files, "revisions")) expect(recipeIds).toContain(recipeId);
    await restored(path, async (db) => {
      const again = await filesIn(await exportOf(db));
      for (const noun of ["recipes", "revisions", "revisionLines", "events", "materials"])
        expect(again.get(`${noun}.jsonl`)?.equals(files.get(`${noun}.jsonl`) ?? Buffer.of())).toBe(
          true,
        );
      expect((await readChain(db)).fault).toBeUndefined();
    });
  }, 120_000);

  it("lets people in as before, by passwords and by links, which an export does not", async () => {
    const password = "only for this test 1";
    const hash = await hashPassword(password);
    await studio.db
      .update(people)
      .set({ passwordHash: hash })
      .where(eq(people.id, studio.ids.author));
    const made = await studio.send("author", `/recipes/${slug}/revisions/1/links`, { json: {} });
    const { id } = (await made.json()) as { id: string };
    const path = await backUp(studio.db, folder, now);
    expect(await holdsSecrets({ path })).toBe(true);
    await restored(path, async (db) => {
      const [author] = await db.select().from(people).where(eq(people.id, studio.ids.author));
      expect(await verifyPassword(author?.passwordHash ?? "", password)).toBe(true);
      const linkIn = (of: Db) => of.select().from(shareLinks).where(eq(shareLinks.id, id));
      expect(await linkIn(db)).toEqual(await linkIn(studio.db));
    });

    const bytes = await exportOf(studio.db);
    expect(await holdsSecrets({ bytes })).toBe(false);
    const all = Buffer.concat([...(await filesIn(bytes)).values()]).toString("latin1");
    const [link] = await studio.db.select().from(shareLinks);
    expect(all).toContain(link?.id);
    expect(all).not.toContain(link?.tokenHash);
    expect(all).not.toContain(hash);
  }, 120_000);

  it("is for its owner's eyes, is there whole or not at all, and older ones go by the rule", async () => {
    for (let age = 40; age > 0; age -= 1)
      await writeFile(
        join(
          folder,
          `bucket-${new Date(now.getTime() - age * 86_400_000).toISOString().replaceAll(":", "-")}.zip`,
        ),
        "",
      );
    await writeFile(join(folder, "notes of the manager.txt"), "keep out");
    const path = await backUp(studio.db, folder, now);
    expect((await stat(path)).mode & 0o777).toBe(0o600);
    const left = await listBackups(folder);
    expect(left[0]?.at).toEqual(now);
    expect(left.length).toBeGreaterThan(9);
    expect(left.length).toBeLessThan(16);
    expect(await readdir(folder)).toContain("notes of the manager.txt");

    const broken = {
      transaction: () => Promise.reject(new Error("the database went away")),
    } as unknown as Db;
    await expect(backUp(broken, folder, new Date("2026-11-21T03:00:00Z"))).rejects.toThrow();
    expect((await listBackups(folder))[0]?.at).toEqual(now);
    expect((await readdir(folder)).filter((name) => name.endsWith(".part"))).toEqual([]);
  }, 120_000);

  it("leaves nothing where it breaks off in the midst of writing", async () => {
    const whole = await openSmallStudio();
    // Its rows are read in one transaction; a picture is read by itself after them.
    const breaking = new Proxy(whole.db, {
      get(db, name) {
        if (name === "select" || name === "query") throw new Error("the database went away");
        const own = Reflect.get(db, name);
        return typeof own === "function" ? own.bind(db) : own;
      },
    });
    const inside = join(folder, "broken off");
    try {
      await expect(backUp(breaking, inside, now)).rejects.toThrow();
      expect(await readdir(inside)).toEqual([]);
      await backUp(whole.db, inside, now);
      expect(await listBackups(inside)).toHaveLength(1);
    } finally {
      await whole.close();
    }
  }, 120_000);

  it("is due once a day", async () => {
    const later = (hours: number) => new Date(now.getTime() + hours * 3_600_000);
    const inside = join(folder, "made by it");
    expect(await backUpIfDue(studio.db, inside, now)).toBe(
      join(inside, "bucket-2026-11-20T03-00-00.000Z.zip"),
    );
    expect(await backUpIfDue(studio.db, inside, later(23))).toBeUndefined();
    expect(await backUpIfDue(studio.db, inside, later(24))).toBeDefined();
    expect(await listBackups(inside)).toHaveLength(2);
  }, 120_000);
});
