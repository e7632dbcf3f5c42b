import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { signInAttempts } from "../../src/db/schema/index.ts";
import { countAttempt, forgiveAttempt } from "../../src/db/sign-in-attempts.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("failed attempts", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const minute = 60_000;
  const noon = new Date("2026-03-01T12:00:00Z").getTime();
  const count = (email: string, minutes: number) =>
    countAttempt(studio.db, { email, address: email, at: new Date(noon + minutes * minute) });

  it("count for a quarter of an hour, and the answer says until when", async () => {
    for (let n = 0; n < 10; n += 1)
      expect((await count("one@saltmarsh.example", n)).kind).toBe("counted");
    expect(await count("one@saltmarsh.example", 12)).toEqual({
      kind: "too-many",
      againInSeconds: 3 * 60,
    });
    expect((await count("one@saltmarsh.example", 15.1)).kind).toBe("counted");
  });

  it("do not count while they are refused, so that waiting helps", async () => {
    for (let n = 0; n < 10; n += 1) await count("two@saltmarsh.example", 0);
    for (let n = 0; n < 20; n += 1)
      expect((await count("two@saltmarsh.example", 14)).kind).toBe("too-many");
    expect((await count("two@saltmarsh.example", 15.1)).kind).toBe("counted");
  });

  it("hold nobody up for longer where the clock was set back since", async () => {
    for (let n = 0; n < 10; n += 1) await count("four@saltmarsh.example", 40);
    expect((await count("four@saltmarsh.example", 40)).kind).toBe("too-many");
    expect((await count("four@saltmarsh.example", -20)).kind).toBe("counted");
  });

  it("are kept by hash only, and swept once they are old", async () => {
    const counted = await count("three@saltmarsh.example", 60);
    const stored = JSON.stringify(await studio.db.select().from(signInAttempts));
    expect(stored).not.toContain("saltmarsh");
    if (counted.kind !== "counted") throw new Error("it was not counted");
    await forgiveAttempt(studio.db, counted.attempt, new Date(noon + 60 * minute));
    expect(await studio.db.select().from(signInAttempts)).toEqual([]);
  });
});
