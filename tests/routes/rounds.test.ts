import { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listRound } from "../../src/db/rounds.ts";
import { bucketReadings } from "../../src/db/schema/index.ts";
import { type stopJson, stopOf as stopSays } from "../../src/routes/round-json.ts";
import { fireTile } from "../evidence.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Stop = ReturnType<typeof stopJson>;
type Round = { day: string; done: number; of: number; stops: Stop[] };

let studio: TestStudio;
let slug: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  slug = await publish(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const fill = async (name: string, recipe = slug) => {
  const json = { recipe, revision: 1, name, litres: "20", test: true };
  const answer = await studio.send("manager", "/buckets", { json });
  return ((await answer.json()) as { id: string }).id;
};
const round = () => studio.json<Round>("author", "/rounds");
const stopOf = async (id: string) => (await round()).stops.find((stop) => stop.id === id);
const tick = (json: object, who: Who = "author") => studio.send(who, "/rounds/ticks", { json });
const pageOf = async (who: Who, path: string) => (await studio.send(who, path)).text();

describe("the round", () => {
  it("says so where there is nothing to go round, and counts what was done today", async () => {
    expect(await pageOf("author", "/rounds")).toContain("No bucket has anything in it.");
    const [last, first, gone] = [await fill("Zeal"), await fill("Amber"), await fill("Gone")];
    const empty = { method: "PUT", json: { is: "empty", why: "Used up." } };
    await studio.send("manager", `/buckets/${gone}/state`, empty);
    expect((await round()).stops.map(({ id }) => id)).toEqual([first, last]);
    await tick({ bucket: first, stirred: true });
    expect(await round()).toMatchObject({
      ...{ day: new Date().toISOString().slice(0, 10), done: 1, of: 2 },
      stops: [
        { name: "Amber", daysSinceStirred: 0, tick: { by: "Rukmini Vale", stirred: true } },
        { name: "Zeal", daysSinceStirred: null, tick: null },
      ],
    });
    const page = await pageOf("other member", "/rounds");
    expect(page).toContain("1 of 2 done today");
    expect(page).toContain("Stirred by Rukmini Vale");
    expect(page).toContain('class="round-sheet print-only"');
    expect(await pageOf("author", "/buckets")).toContain('href="/rounds"');
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["manager", 201],
  ])("answers the %s who ticks with %i", async (who, status) => {
    const id = await fill(`Ticked by ${who}`);
    const json = { bucket: id, stirred: false, specificGravity: "1.5", litres: "8", note: "Low." };
    expect((await tick(json, who)).status).toBe(status);
    const stop = await stopOf(id);
    if (status !== 201) return expect(stop?.tick).toBeNull();
    expect(stop).toMatchObject({ litres: "8", gravity: { last: "1.5" }, tick: { note: "Low." } });
    expect(stop?.daysSinceStirred).toBeNull();
  });

  it("counts days since it was stirred, and yesterday's tick no more", async () => {
    const id = await fill("Stirred before");
    const at = new Date(Date.now() - 3 * 24 * 60 * 60 * 1000);
    await studio.db.insert(bucketReadings).values({
      ...{ id: uuidv7(), bucketId: id, stirred: true, note: "", by: studio.ids.author, at },
      specificGravity: new Decimal("1.44"),
      litres: new Decimal(12),
    });
    expect(await stopOf(id)).toMatchObject({ daysSinceStirred: 3, litres: "12", tick: null });
  });

  it("holds it against its target, and flags what speaks against it", async () => {
    const own = await publish(studio);
    const id = await fill("Measured", own);
    expect((await stopOf(id))?.flags.join(" ")).not.toContain("lumpy");
    const json = { gravity: { low: "1.43", high: "1.47" }, keepsMonths: 12 };
    await studio.send("manager", `/buckets/${id}/directions`, { method: "PUT", json });
    await tick({ bucket: id, stirred: true, specificGravity: "1.45", litres: "9" });
    expect((await stopOf(id))?.gravity).toEqual({
      last: "1.45",
      target: json.gravity,
      within: true,
    });
    await tick({ bucket: id, stirred: true, specificGravity: "1.48", litres: "9" });
    expect((await stopOf(id))?.gravity.within).toBe(false);
    expect(await pageOf("author", "/rounds")).toContain("1.48, should be 1.43 to 1.47");
    await studio.send("author", `/buckets/${id}/reports`, { json: { trouble: "lumpy" } });
    const { cautions } = await studio.json<{ cautions: string[] }>("author", `/buckets/${id}`);
    const flags = (await stopOf(id))?.flags;
    expect(flags).toEqual(cautions);
    expect(flags?.join(" ")).toContain("lumpy");
  });

  it("flags one that is past its shelf life, counted from when it was filled", async () => {
    const id = await fill("Old");
    const json = { keepsMonths: 6 };
    await studio.send("manager", `/buckets/${id}/directions`, { method: "PUT", json });
    const now = new Date();
    const inMonths = (months: number) => {
      const then = new Date(now);
      then.setUTCMonth(then.getUTCMonth() + months);
      return then;
    };
    const reader = { id: studio.ids.author, role: "member" } as const;
    const round = await listRound(studio.db, { reader, now, since: now });
    const stop = round.find(({ bucket }) => bucket.id === id);
    if (!stop) throw new Error("it is on the round");
    const flagsAt = (then: Date) => stopSays(stop, then).flags.join(" ");
    expect(flagsAt(inMonths(5))).not.toContain("shelf life");
    expect(flagsAt(inMonths(7))).toContain("Past its shelf life since");
  });

  it("tells its proof tile, if there is one since it was filled", async () => {
    const own = await publish(studio);
    const id = await fill("Proved", own);
    expect((await stopOf(id))?.proof).toBeNull();
    const tile = await fireTile(studio, own, { bucket: id });
    expect((await stopOf(id))?.proof).toMatchObject({ tile, deltaE: null });
  });

  it("takes a form once, without script, and shows it again at its bucket", async () => {
    const id = await fill("By form");
    const form = { bucket: id, stirred: "true", specificGravity: "1.5" };
    const again = await studio.send("author", "/rounds/ticks", { form });
    expect(again.status).toBe(422);
    const page = await again.text();
    expect(page).toContain("say how many litres");
    expect(page.match(/value="1.5"/g)?.length).toBe(1);
    const sent = { form: { ...form, litres: "7", idempotencyKey: `t${id}` } };
    const both = await Promise.all([0, 1].map(() => studio.send("author", "/rounds/ticks", sent)));
    expect(both.map((answer) => answer.headers.get("location"))).toEqual(
      Array(2).fill(`/rounds#stop-${id}`),
    );
    const { items } = await studio.json<{ items: unknown[] }>("author", `/buckets/${id}/readings`);
    expect(items.length).toBe(1);
  });

  it("ticks nothing that is not there, empty or another's secret", async () => {
    const hidden = await fill("Hidden", await publish(studio, { shownTo: "private" }));
    const gone = await fill("Emptied");
    const empty = { method: "PUT", json: { is: "empty", why: "Used up." } };
    await studio.send("manager", `/buckets/${gone}/state`, empty);
    for (const bucket of [hidden, gone, uuidv7(), "7"]) {
      const answer = await tick({ bucket, stirred: true }, "other member");
      expect(answer.status).toBe(422);
      expect(await answer.json()).toMatchObject({ errors: [{ path: "bucket" }] });
    }
    expect(await pageOf("other member", "/rounds")).not.toContain("Hidden");
  });

  it("has managers wait for reports until they are answered", async () => {
    const id = await fill("Reported");
    await studio.send("author", `/buckets/${id}/reports`, { json: { trouble: "thin" } });
    const waits = async (who: Who) =>
      (
        await studio.json<{ items: { kind: string; says: string; href: string }[] }>(
          who,
          "/waiting",
        )
      ).items.filter(({ kind, says }) => kind === "bucket-report" && says.includes("“Reported”"));
    expect(await waits("author")).toEqual([]);
    const [waiting] = await waits("manager");
    expect(waiting?.says).toContain("Rukmini Vale reported the bucket “Reported”: thin");
    await studio.send("manager", waiting?.href ?? "", { json: { done: "Topped up." } });
    expect(await waits("manager")).toEqual([]);
  });
});
