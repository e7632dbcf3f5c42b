import { mkdtemp, readdir, rm, utimes, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it, vi } from "vitest";
import { engine } from "../../src/chem/chemistry.ts";
import { inTurn } from "../../src/db/in-turn.ts";
import { countStale, recomputeSome } from "../../src/db/recomputing.ts";
import { chemistries } from "../../src/db/schema/index.ts";
import { backUpInTurn, nameOf } from "../../src/work/backing-up.ts";
import { keepRecomputing } from "../../src/work/recomputing.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const at = new Date("2026-11-20T03:00:00Z");
const onPostgres = process.env.BUCKET_ENGINE === "postgres";

describe("two instances on one database", () => {
  let studio: TestStudio;
  let folder: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    for (let made = 0; made < 3; made += 1) await publish(studio);
    folder = await mkdtemp(join(tmpdir(), "bucket-turns-"));
  });
  afterAll(async () => {
    await studio.close();
    await rm(folder, { recursive: true, force: true });
  });

  const workedOutBy = (version: string) => studio.db.update(chemistries).set({ engine: version });

  it("leave alone what a later engine worked out, and do what an earlier one did", async () => {
    for (const later of ["9.0.0", "1.10.0", `${engine}.1`]) {
      await workedOutBy(later);
      expect([later, await countStale(studio.db)]).toEqual([later, 0]);
      expect(await recomputeSome(studio.db, { limit: 10, at })).toBe(0);
    }
    for (const earlier of ["0.10.0", "1", "a draft"]) {
      await workedOutBy(earlier);
      expect([earlier, await countStale(studio.db)]).toEqual([earlier, 3]);
      expect(await recomputeSome(studio.db, { limit: 10, at })).toBe(3);
    }
    expect(await studio.db.$count(chemistries, eq(chemistries.engine, engine))).toBe(3);
  });

  it.runIf(onPostgres)("go on with what one had in hand that was killed", async () => {
    await workedOutBy("0.9.0");
    const ended = new AbortController();
    let working: Promise<void> | undefined;
    const killed = studio.db.transaction(async (tx) => {
      expect(await recomputeSome(tx, { limit: 10, at })).toBe(3);
      // The other finds nothing that it could take, and has to look again.
      expect(await recomputeSome(studio.db, { limit: 10, at })).toBe(0);
      working = keepRecomputing(studio.db, { signal: ended.signal, pause: 5 });
      throw new Error("killed");
    });
    await expect(killed).rejects.toThrow("killed");
    await vi.waitFor(async () => expect(await countStale(studio.db)).toBe(0), { timeout: 20_000 });
    ended.abort();
    await working;
  });

  it("write one backup of two that are due at once", async () => {
    const later = new Date(at.getTime() + 1);
    const turns = await Promise.all([
      backUpInTurn(studio, folder, at),
      backUpInTurn(studio, folder, later),
    ]);
    const backups = () => readdir(folder).then((names) => names.length);
    if (onPostgres) {
      expect(turns.map(({ kind }) => kind).sort()).toEqual(["another is at it", "done"]);
      expect(await backups()).toBe(1);
    }
    // Whoever comes after finds that it is done.
    const before = await backups();
    expect(await backUpInTurn(studio, folder, later)).toEqual({ kind: "done", path: undefined });
    expect(await backups()).toBe(before);
  });

  it("take away what one left that was killed over it, and nothing that is being written", async () => {
    const left = join(folder, `${nameOf(new Date("2026-10-01T03:00:00Z"))}.part`);
    const under = join(folder, `${nameOf(at)}.part`);
    const foreign = join(folder, "holiday.zip.part");
    for (const path of [left, under, foreign]) await writeFile(path, "half");
    const long = new Date(at.getTime() - 61 * 60_000);
    for (const path of [left, foreign]) await utimes(path, long, long);
    await utimes(under, at, at);
    await backUpInTurn(studio, folder, at);
    const parts = (await readdir(folder)).filter((name) => name.endsWith(".part"));
    expect(parts.sort()).toEqual([`${nameOf(at)}.part`, "holiday.zip.part"].sort());
  });

  it.runIf(onPostgres)("let the next one go on where one broke off in its turn", async () => {
    const broken = inTurn(studio, "backing up", async () => {
      expect(await inTurn(studio, "backing up", async () => "too soon")).toBeUndefined();
      throw new Error("broke off");
    });
    await expect(broken).rejects.toThrow("broke off");
    expect(await inTurn(studio, "backing up", async () => "next")).toBe("next");
  });
});
