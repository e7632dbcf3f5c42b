import { execFile } from "node:child_process";
import { resolve } from "node:path";
import { promisify } from "node:util";
import { eq, sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, beforeEach, describe, expect, inject, it } from "vitest";
import { type Head, readChain } from "../../src/db/chain.ts";
import { sha256 } from "../../src/db/digests.ts";
import { appendEvents, findChainFault } from "../../src/db/events.ts";
import { events } from "../../src/db/schema/index.ts";
import { readHead, verify } from "../../src/work/verifying.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("the chain of events", () => {
  let studio: TestStudio;
  let last: Head;
  const now = new Date("2026-05-01T10:00:00Z");
  beforeAll(async () => {
    studio = await openTestStudio();
    // As the owner of the table can, behind the back of its triggers.
    await owner("alter table events disable trigger all");
  });
  afterAll(() => studio.close());
  beforeEach(async () => {
    await owner("delete from events");
    await studio.db.transaction((tx) =>
      appendEvents(
        tx,
        Array.from({ length: 9 }, (_, n) => ({
          act: { by: studio.ids.manager, at: new Date("2026-03-01T10:00:00.123Z") },
          happening: { kind: "counted", subject: "studio", subjectId: uuidv7(), detail: { n } },
        })),
      ),
    );
    last = (await readChain(studio.db)).head;
  });

  const owner = async (statements: string) => {
    for (const statement of statements.split(";")) await studio.db.execute(sql.raw(statement));
  };
  /** Writes an event anew, with a hash that fits its new text. */
  const writeAnew = async (seq: number) => {
    const [row] = await studio.db.select().from(events).where(eq(events.seq, seq));
    const text = (row?.text ?? "").replace(/"n":\d+/, '"n":77');
    const anew = { text, hash: sha256(text) };
    await studio.db.update(events).set(anew).where(eq(events.seq, seq));
  };
  const fault = (known?: Head) => findChainFault(studio.db, { last: known });

  it("holds, and tells its head", async () => {
    expect(last.seq).toBe(9);
    expect(await fault(last)).toBeUndefined();
    const line = `The chain of 9 events holds. Head: 9:${last.hash}`;
    const standings = "Every standing is what the record makes of it.";
    expect(await verify(studio.db, { last, now })).toEqual({
      sound: true,
      lines: [line, standings, "The library is searched by what the record says."],
    });
    expect(readHead(`9:${last.hash}`)).toEqual(last);
    expect(readHead("9:abc")).toBeUndefined();
  });

  it.each<[string, string, number, string]>([
    [
      "a column",
      "update events set kind = 'x' where seq = 5",
      5,
      "event 5 was changed: its columns",
    ],
    ["a text", "update events set text = '{}' where seq = 5", 5, "event 5 was changed: its hash"],
    [
      "a moment",
      "update events set at = now() where seq = 5",
      5,
      "event 5 was changed: its columns",
    ],
    ["who", "update events set by = null where seq = 5", 5, "event 5 was changed: its columns"],
    ["the first", "delete from events where seq = 1", 1, "event 1 is missing"],
    ["a gap at the start", "delete from events where seq < 4", 1, "events 1 to 3 are missing"],
    ["one in the middle", "delete from events where seq = 4", 4, "event 4 is missing"],
    [
      "a gap that was closed",
      "delete from events where seq = 4; update events set seq = seq + 100 where seq > 4; update events set seq = seq - 101 where seq > 100",
      4,
      "event 4 is out of order: its text says that it is event 5",
    ],
    [
      "two that changed places",
      "update events set seq = 900 where seq = 3; update events set seq = 3 where seq = 7; update events set seq = 7 where seq = 900",
      3,
      "event 3 is out of order: its text says that it is event 7",
    ],
  ])("names what the owner of the table did to %s", async (_, statements, seq, says) => {
    await owner(statements);
    expect(await fault()).toEqual({ seq, says: expect.stringContaining(says) });
  });

  it("names one that was written anew with a hash that fits", async () => {
    await writeAnew(5);
    expect(await fault()).toMatchObject({
      seq: 6,
      says: "event 6 does not follow event 5: one of the two was changed",
    });
  });

  it("knows an end that was cut off, or written anew, by the head that was noted down", async () => {
    await owner("delete from events where seq > 7");
    expect(await fault()).toBeUndefined();
    expect(await fault(last)).toEqual({
      seq: 8,
      says: "events 8 to 9 are cut off: the chain ends with event 7",
    });
    expect((await verify(studio.db, { last, now })).sound).toBe(false);
    const seven = (await readChain(studio.db)).head;
    await writeAnew(7);
    expect(await fault()).toBeUndefined();
    expect(await fault(seven)).toMatchObject({ seq: 7, says: expect.stringContaining("anew") });
    await owner("delete from events");
    expect(await fault(last)).toMatchObject({ says: expect.stringContaining("events 1 to 9 are") });
  });

  it("names a standing that the record does not make", async () => {
    await stockShelf(studio);
    const slug = await publish(studio);
    expect((await verify(studio.db, { now })).sound).toBe(true);
    await owner(
      `update revision_standings set "is" = 'approved', "for" = 'decorative', unsettled = false`,
    );
    const { sound, lines } = await verify(studio.db, { now });
    expect(sound).toBe(false);
    expect(lines[1]).toMatch(
      new RegExp(`^${slug}, revision 1: kept as “approved.*”, but the record makes it “draft`),
    );
    await owner("update revision_standings set unsettled = true");
    expect((await verify(studio.db, { now })).sound).toBe(true);
  });

  // The embedded engine is inside one process, so a second one cannot look into it.
  it.runIf(process.env.BUCKET_ENGINE === "postgres")(
    "is checked by npm run verify, which ends with 1 where it does not hold",
    async () => {
      const check = async (...args: string[]) => {
        const result = await studio.db.execute(sql`select current_database() as name`);
        const [{ name }] = result as unknown as [{ name: string }];
        const url = new URL(inject("server"));
        url.pathname = `/${name}`;
        const program = ["--import", "tsx", "src/verify.ts", ...args];
        const cwd = resolve(import.meta.dirname, "../..");
        const env = { ...process.env, DATABASE_URL: url.href };
        return promisify(execFile)(process.execPath, program, { cwd, env }).then(
          ({ stdout }) => ({ code: 0, said: stdout }),
          ({ code, stdout, stderr }) => ({ code, said: `${stdout}${stderr}` }),
        );
      };
      const noted = ["--last", `9:${last.hash}`];
      expect(await check(...noted)).toMatchObject({
        code: 0,
        said: expect.stringContaining(`Head: 9:${last.hash}`),
      });
      expect(await check("--last", "9")).toMatchObject({ code: 1 });
      await owner("delete from events where seq >= 9");
      expect(await check(...noted)).toMatchObject({
        code: 1,
        said: expect.stringContaining("event 9 is cut off"),
      });
    },
  );
});
