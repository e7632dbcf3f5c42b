import { sql } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { appendEvent, findChainFault, listEvents } from "../../src/db/events.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("events", () => {
  let studio: TestStudio;
  const subjectId = uuidv7();
  const happen = (kind: string) =>
    studio.db.transaction((tx) =>
      appendEvent(
        tx,
        { by: studio.ids.manager, at: new Date("2026-03-01T10:00:00.123Z") },
        { kind, subject: "studio", subjectId, detail: { n: 1 } },
      ),
    );

  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  it("numbers what happens at once without a gap or a double", async () => {
    const numbers = await Promise.all(Array.from({ length: 8 }, (_, n) => happen(`happened ${n}`)));
    expect(numbers.sort((a, b) => a - b)).toEqual([1, 2, 3, 4, 5, 6, 7, 8]);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });

  it("tells who did what, in order", async () => {
    const rows = await listEvents(studio.db, { subjectId, limit: 100 });
    expect(rows).toHaveLength(8);
    expect(rows[0]).toMatchObject({ seq: 1, by: { name: "Ines Okafor" }, detail: { n: 1 } });
  });

  it.each(["update events set kind = 'x'", "delete from events", "truncate events"])(
    "is not changed by: %s",
    async (statement) => {
      const refused = await studio.db.execute(sql.raw(statement)).then(
        () => undefined,
        (error) => error.cause ?? error,
      );
      expect(String(refused)).toContain("append-only");
      expect(await findChainFault(studio.db)).toBeUndefined();
    },
  );

  it("names a row that was changed behind the back of the triggers", async () => {
    await studio.db.execute(sql.raw("alter table events disable trigger all"));
    await studio.db.execute(sql.raw("update events set kind = 'something else' where seq = 5"));
    expect(await findChainFault(studio.db)).toMatchObject({ seq: 5 });
    await studio.db.execute(sql.raw("delete from events where seq = 3"));
    expect(await findChainFault(studio.db)).toEqual({ seq: 3, says: "event 3 is missing" });
    await studio.db.execute(sql.raw("alter table events enable trigger all"));
  });
});
