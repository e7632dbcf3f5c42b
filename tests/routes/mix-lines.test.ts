import { Decimal } from "decimal.js";
import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { lots, mixTicks, recalls, stockMoves } from "../../src/db/schema/index.ts";
import { leftOfLots } from "../../src/db/stock.ts";
import { buy, end, type Mix, newKey, openMix, readMix, tick, undo } from "../mixes.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

let studio: TestStudio;
let feldspar: string;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
  feldspar = await buy(studio, "potash-feldspar", { grams: "25000", mark: "F-12" });
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const left = async (lot: string) => (await leftOfLots(studio.db, [lot])).get(lot)?.toFixed();
const movesOf = (tickId: string) =>
  studio.db.select().from(stockMoves).where(eq(stockMoves.tickId, tickId));
const ticksOf = (mix: string) => studio.db.select().from(mixTicks).where(eq(mixTicks.mixId, mix));
const line = (mix: Mix, n: number) => {
  const found = mix.lines.find((each) => each.n === n);
  if (!found) throw new Error(`no line ${n}`);
  return found;
};

describe("a tick", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 200],
    ["reviewer", 200],
    ["manager", 200],
  ])("is for whoever is in the room: %s %i", async (who, status) => {
    const mix = await openMix(studio);
    expect((await tick(studio, who, mix.id, { n: 1, grams: "400" })).status).toBe(status);
    expect((await ticksOf(mix.id)).length).toBe(status === 200 ? 1 : 0);
  });

  it("takes what went in from its lot, to the last digit, and says so in the record", async () => {
    const mix = await openMix(studio);
    const before = new Decimal((await left(feldspar)) ?? 0);
    const answer = await tick(studio, "author", mix.id, {
      n: 1,
      grams: "400.1234",
      lot: feldspar,
    });
    const { put, lots: bags } = line(answer.mix, 1);
    expect(put).toMatchObject({
      grams: "400.1234",
      ticks: [
        {
          key: answer.key,
          grams: "400.1234",
          lot: { id: feldspar, mark: "F-12", supplier: "Quayside Ceramics" },
          by: { name: "Rukmini Vale" },
        },
      ],
    });
    const after = before.minus("400.1234").toFixed();
    expect(await left(feldspar)).toBe(after);
    expect(bags).toMatchObject([{ id: feldspar, leftGrams: after }]);
    const [last] = (await listEvents(studio.db, { subjectId: mix.id, limit: 9 })).slice(-1);
    expect(last).toMatchObject({
      kind: "line ticked",
      detail: { line: 1, grams: "400.1234", lot: feldspar, tick: put.ticks[0]?.id },
    });
  });

  it("out of a bag that nobody could tell deducts nothing, and says so", async () => {
    const mix = await openMix(studio);
    const answer = await tick(studio, "author", mix.id, { n: 1, grams: "400", lot: "none" });
    const [put] = line(answer.mix, 1).put.ticks;
    expect(put).toMatchObject({
      lot: null,
      says: "not deducted: nobody could tell which bag",
    });
    expect(await movesOf(put?.id ?? "")).toEqual([]);
    expect(await (await studio.send("author", `/mixes/${mix.id}`)).text()).toContain(
      "not deducted: nobody could tell which bag",
    );
  });

  it("counts once by its key, whenever it comes again", async () => {
    const mix = await openMix(studio);
    const before = await left(feldspar);
    const given = { n: 1, grams: "400", lot: feldspar, key: newKey() };
    const both = await Promise.all([0, 1, 2].map(() => tick(studio, "author", mix.id, given)));
    expect(both.map(({ status }) => status)).toEqual([200, 200, 200]);
    expect((await ticksOf(mix.id)).length).toBe(1);
    expect(await left(feldspar)).toBe(new Decimal(before ?? 0).minus(400).toFixed());
    await undo(studio, "author", mix.id, given);
    const late = await tick(studio, "author", mix.id, { ...given, grams: "400.0" });
    expect([late.status, line(late.mix, 1).put.grams]).toEqual([200, null]);
    expect(await left(feldspar)).toBe(before);
    await end(studio, "manager", mix.id, { "giving-up": { why: "Enough." } });
    expect((await tick(studio, "author", mix.id, given)).status).toBe(200);
    expect((await ticksOf(mix.id)).length).toBe(1);
  });

  it.each<[string, object]>([
    ["another weight", { grams: "401" }],
    ["another line", { n: 2 }],
    ["no lot", { lot: "none" }],
  ])("is refused where its key came before with %s", async (_, different) => {
    const mix = await openMix(studio);
    const given = { n: 1, grams: "400", lot: feldspar, key: newKey() };
    await tick(studio, "author", mix.id, given);
    const answer = await tick(studio, "author", mix.id, { ...given, ...different });
    expect([answer.status, answer.mix.errors]).toEqual([
      422,
      [{ path: "key", says: expect.any(String) }],
    ]);
    expect((await ticksOf(mix.id)).length).toBe(1);
  });

  it("and its taking back are sent by whoever put them down, where they say who that is", async () => {
    const mix = await openMix(studio);
    const given = { grams: "400", key: newKey(), person: studio.ids.author };
    const sent = async (who: Who, method: "PUT" | "DELETE", json: object) => {
      const answer = await studio.send(who, `/mixes/${mix.id}/lines/1`, { method, json });
      return [answer.status, ((await answer.json()) as { type?: string }).type];
    };
    const refused = [403, "/problems/somebody-else"];
    expect(await sent("manager", "PUT", given)).toEqual(refused);
    expect(await sent("author", "PUT", given)).toEqual([200, undefined]);
    const back = { key: given.key, person: given.person };
    expect(await sent("manager", "DELETE", back)).toEqual(refused);
    expect((await readMix(studio, mix.id)).putGrams).toBe("400");
    expect(await sent("author", "DELETE", back)).toEqual([200, undefined]);
    expect((await readMix(studio, mix.id)).putGrams).toBe("0");
  });

  it("of two people at once goes in once, and the other is told whose it was", async () => {
    const mix = await openMix(studio);
    const people: Who[] = ["author", "reviewer", "other member", "manager"];
    const all = await Promise.all(
      people.map((who) => tick(studio, who, mix.id, { n: 1, grams: "400", lot: feldspar })),
    );
    expect(all.map(({ status }) => status).sort()).toEqual([200, 409, 409, 409]);
    const [one] = await ticksOf(mix.id);
    const by = line(await readMix(studio, mix.id), 1).put.ticks[0]?.by.name;
    const second = all.find(({ status }) => status === 409)?.mix;
    expect(second?.detail).toContain(`${by} put 400 g in`);
    expect(line(second?.mix as Mix, 1).put.grams).toBe("400");
    expect((await ticksOf(mix.id)).map(({ id }) => id)).toEqual([one?.id]);
  });

  it("comes on top where it is said to, out of a second bag", async () => {
    const mix = await openMix(studio);
    const second = await buy(studio, "potash-feldspar", { mark: "F-13" });
    await tick(studio, "author", mix.id, { n: 1, grams: "150", lot: feldspar });
    const answer = await tick(studio, "reviewer", mix.id, {
      n: 1,
      grams: "250",
      lot: second,
      adds: true,
    });
    const { put } = line(answer.mix, 1);
    expect([put.grams, put.ticks.map(({ lot }) => lot?.mark)]).toEqual(["400", ["F-12", "F-13"]]);
    expect(answer.mix.putGrams).toBe("400");
    expect(await left(second)).toBe("4750");
  });

  it.each<[string, object, string]>([
    ["nothing", { grams: "0" }, "grams"],
    ["less than nothing", { grams: "-1" }, "grams"],
    ["more than a ton", { grams: "1000001" }, "grams"],
    ["five decimals", { grams: "1.00001" }, "grams"],
    ["words", { grams: "a pinch" }, "grams"],
    ["a short key", { key: "short" }, "key"],
    ["a long key", { key: "k".repeat(81) }, "key"],
    ["a lot that is none", { lot: "F-12" }, "lot"],
    ["a lot that nobody has", { lot: uuidv7() }, "lot"],
    ["a field that is none", { colour: "grey" }, "colour"],
  ])("refuses %s, by its field", async (_, json, path) => {
    const mix = await openMix(studio);
    const answer = await tick(studio, "author", mix.id, { n: 1, grams: "400", ...json });
    expect([answer.status, answer.mix.errors?.map((fault) => fault.path)]).toEqual([422, [path]]);
    expect(await ticksOf(mix.id)).toEqual([]);
  });

  it("refuses another material's lot, and no line by nonsense", async () => {
    const mix = await openMix(studio);
    const answer = await tick(studio, "author", mix.id, { n: 2, grams: "250", lot: feldspar });
    expect([answer.status, answer.mix.errors]).toMatchObject([422, [{ path: "lot" }]]);
    for (const n of [0, 6, 1.5])
      expect((await tick(studio, "author", mix.id, { n, grams: "1" })).status).toBe(404);
  });

  it("refuses a lot that is recalled, in its words, and takes one that is past its day", async () => {
    const mix = await openMix(studio);
    const [bad, old] = [await buy(studio, "quartz"), await buy(studio, "whiting", { mark: "W-1" })];
    const at = new Date();
    const recall = { id: uuidv7(), why: "A sack of lead was beside it." };
    await studio.db.insert(recalls).values({ ...recall, lotId: bad, by: studio.ids.manager, at });
    const refused = await tick(studio, "author", mix.id, { n: 2, grams: "250", lot: bad });
    expect(refused.status).toBe(422);
    expect(refused.mix.errors).toMatchObject([
      { path: "lot", says: expect.stringContaining(recall.why) },
    ]);
    expect(line(await readMix(studio, mix.id), 2).lots).toMatchObject([
      { id: bad, recalled: recall.why },
    ]);
    const past = { ...(await lotRow(old)), id: uuidv7(), bestBefore: "2020-01-01" };
    await studio.db.insert(lots).values(past);
    const taken = await tick(studio, "author", mix.id, { n: 3, grams: "200", lot: past.id });
    expect(taken.status).toBe(200);
    expect(taken.mix.cautions).toContain(
      "Past its day: the lot W-1 of Whiting. Look at it before you rely on it.",
    );
  });

  const lotRow = async (id: string) => {
    const [row] = await studio.db.select().from(lots).where(eq(lots.id, id));
    if (!row) throw new Error("no lot");
    return row;
  };

  it("is never refused for an empty bag, and asks for a count instead", async () => {
    const mix = await openMix(studio);
    const small = await buy(studio, "kaolin", { grams: "100", mark: "K-9" });
    const answer = await tick(studio, "author", mix.id, { n: 4, grams: "150", lot: small });
    expect(answer.status).toBe(200);
    expect(await left(small)).toBe("-50");
    expect(answer.mix.cautions).toContain(
      "More was taken of the lot K-9 of Kaolin than is on record: count it.",
    );
  });
});

describe("taking a tick back", () => {
  it("gives its lot back what it took, once, however often it is sent", async () => {
    const mix = await openMix(studio);
    const before = await left(feldspar);
    const { key } = await tick(studio, "author", mix.id, { n: 1, grams: "77.7", lot: feldspar });
    const all = await Promise.all(
      [0, 1, 2].map(() => undo(studio, "reviewer", mix.id, { n: 1, key })),
    );
    expect(all.map(({ status }) => status)).toEqual([200, 200, 200]);
    expect(await left(feldspar)).toBe(before);
    const [put] = line(await readMix(studio, mix.id), 1).put.ticks;
    expect(put?.undone).toMatchObject({ by: "Tam Pellew" });
    const moved = await movesOf(put?.id ?? "");
    expect(moved.map(({ because, grams }) => [because, grams.toFixed()]).sort()).toEqual([
      ["mix", "-77.7"],
      ["undone", "77.7"],
    ]);
    expect((await listEvents(studio.db, { subjectId: mix.id, limit: 9 })).at(-1)?.kind).toBe(
      "tick undone",
    );
    expect((await tick(studio, "author", mix.id, { n: 1, grams: "400" })).status).toBe(200);
  });

  it("takes the newest one where no key is said", async () => {
    const mix = await openMix(studio);
    await tick(studio, "author", mix.id, { n: 1, grams: "150" });
    await tick(studio, "author", mix.id, { n: 1, grams: "250", adds: true });
    const grams = async () =>
      line((await undo(studio, "author", mix.id, { n: 1 })).mix, 1).put.grams;
    expect(await grams()).toBe("150");
    expect(await grams()).toBe(null);
    const nothing = await undo(studio, "author", mix.id, { n: 1 });
    expect([nothing.status, nothing.mix.detail]).toEqual([409, "Nothing is in of this line."]);
    const unknown = await undo(studio, "author", mix.id, { n: 1, key: newKey() });
    expect([unknown.status, unknown.mix.errors]).toMatchObject([422, [{ path: "key" }]]);
  });

  it("is for nobody once the mix is finished, and still for everybody once it is given up", async () => {
    const [done, left] = [await openMix(studio), await openMix(studio)];
    for (const { n, grams } of done.lines) await tick(studio, "author", done.id, { n, grams });
    await end(studio, "manager", done.id, { finish: { waterGrams: "900" } });
    expect((await undo(studio, "author", done.id, { n: 1 })).status).toBe(409);
    await tick(studio, "author", left.id, { n: 1, grams: "400" });
    await end(studio, "manager", left.id, { "giving-up": { why: "Spilt." } });
    expect((await undo(studio, "author", left.id, { n: 1 })).status).toBe(200);
  });
});

describe("a weight that is off", () => {
  // By pencil: 440 for 400 is 10 % over; 1.1 times 250, 200, 150 and 20 are 275, 220, 165 and 22.
  it("is taken, and the mix says how to put it right and what it does", async () => {
    const mix = await openMix(studio);
    const { status, mix: off } = await tick(studio, "author", mix.id, { n: 1, grams: "440" });
    expect(status).toBe(200);
    expect(line(off, 1).offPercent).toBe(10);
    expect(off.correction).toMatchObject({
      possible: true,
      factor: 1.1,
      totalGrams: "1122",
      says: [
        "Potash feldspar is 10 % over.",
        expect.stringContaining("bring the batch to 1.1 times its size, 1122 g of powders in all"),
        "The water grows with it.",
      ],
    });
    expect(off.correction?.lines?.map(({ moreGrams }) => moreGrams)).toEqual([
      "0",
      "275",
      "220",
      "165",
      "22",
    ]);
    const potash = off.chemistry?.differences.find(({ of }) => of === "K2O");
    expect(potash?.after).toBeGreaterThan(potash?.before ?? 1);
    expect(potash?.says).toContain("differs by +");
    expect(off.chemistry).toMatchObject({
      endsApproval: true,
      says: expect.stringContaining("further from the recipe than an approval bears"),
    });
    const page = await (await studio.send("author", `/mixes/${mix.id}`)).text();
    expect(page).toContain("Potash feldspar is 10 % over.");
    expect(page).toContain("What to add of each, in grams");
  });

  it("is right again once the rest went in by the correction", async () => {
    const mix = await openMix(studio);
    const { mix: off } = await tick(studio, "author", mix.id, { n: 1, grams: "440" });
    let now = off;
    for (const { n, moreGrams } of off.correction?.lines ?? []) {
      if (moreGrams === "0") continue;
      now = (await tick(studio, "author", mix.id, { n, grams: moreGrams })).mix;
    }
    // Every line is 10 % over the sheet, and the glaze is the recipe's.
    expect(now.chemistry?.endsApproval).toBe(false);
    for (const { difference } of now.chemistry?.differences ?? [])
      expect(Math.abs(difference)).toBeLessThan(1e-9);
  });

  it("asks for what is missing where it is under, and says nothing within the studio's bound", async () => {
    const mix = await openMix(studio);
    const near = await tick(studio, "author", mix.id, { n: 1, grams: "404" });
    expect([near.mix.correction, near.mix.chemistry]).toEqual([null, null]);
    const { mix: short } = await tick(studio, "author", mix.id, { n: 2, grams: "200" });
    expect(line(short, 2).offPercent).toBe(-20);
    expect(short.correction?.lines?.[1]).toEqual({ n: 2, moreGrams: "50", grams: "250" });
    expect(short.correction?.says).toEqual(["Quartz is 20 % under.", "Put in what is missing."]);
  });

  it("ends in the words of the hold, where it is past what an approval bears", async () => {
    const mix = await openMix(studio);
    for (const { n, grams } of mix.lines)
      await tick(studio, "author", mix.id, { n, grams: n === 3 ? "400" : grams });
    await end(studio, "manager", mix.id, { finish: { waterGrams: "900" } });
    type Bucket = { changes: { why: string }[] };
    const { changes } = await studio.json<Bucket>("author", `/buckets/${mix.bucket.id}`);
    expect(changes[0]?.why).toMatch(
      /^Mixed: a proof tile comes first\. What went in is further .*CaO in the unity formula/,
    );
  });
});

describe("a lot with another analysis", () => {
  it("counts with its own, and one without is marked as not this lot's", async () => {
    const source = "Quayside Ceramics, lot W-7";
    const sent = { source, oxides: { CaO: { percent: "50" }, MgO: { percent: "3" } } };
    const added = await studio.send("manager", "/materials/whiting/analyses", {
      json: { ...sent, lossOnIgnition: { percent: "44" }, inUse: false },
    });
    const { id: analysis } = (await added.json()) as { id: string };
    const own = await buy(studio, "whiting", { analysis, mark: "W-7" });
    const mix = await openMix(studio);
    const { mix: other } = await tick(studio, "author", mix.id, { n: 3, grams: "200", lot: own });
    expect(other.correction).toBe(null);
    expect(other.notThisLot).toEqual([]);
    const magnesia = other.chemistry?.differences.find(({ of }) => of === "MgO");
    expect([magnesia?.before, (magnesia?.after ?? 0) > 0.01]).toEqual([0, true]);
    const { mix: both } = await tick(studio, "author", mix.id, { n: 1, grams: "400" });
    expect(both.notThisLot).toEqual(["Potash feldspar"]);
    expect(both.cautions.join(" ")).toContain("Not this lot's analysis: Potash feldspar.");
  });
});

describe("the forms of a mix", () => {
  it("do what the calls do, and lead back to the line", async () => {
    const mix = await openMix(studio);
    const path = `/mixes/${mix.id}/lines/1`;
    const page = await (await studio.send("author", `/mixes/${mix.id}`)).text();
    const keys = [...page.matchAll(/name="key" value="([^"]+)"/g)].map(([, key]) => key ?? "");
    expect(new Set(keys).size).toBe(mix.lines.length);
    const form = { grams: "400", lot: feldspar, key: keys[0] ?? "" };
    for (const _ of [0, 1]) {
      const put = await studio.send("author", path, { form });
      expect([put.status, put.headers.get("location")]).toEqual([303, `/mixes/${mix.id}#line-1`]);
    }
    expect((await ticksOf(mix.id)).length).toBe(1);
    const undone = await studio.send("author", `${path}/undo`, { form: { key: form.key } });
    expect([undone.status, undone.headers.get("location")]).toEqual([
      303,
      `/mixes/${mix.id}#line-1`,
    ]);
    expect((await readMix(studio, mix.id)).putGrams).toBe("0");
  });

  it("come back with what was typed and where it is wrong", async () => {
    const mix = await openMix(studio);
    const form = { grams: "much", lot: feldspar, key: newKey() };
    const wrong = await studio.send("author", `/mixes/${mix.id}/lines/1`, { form });
    expect(wrong.status).toBe(422);
    const page = await wrong.text();
    expect(page).toContain('href="#field-lines.1.grams"');
    expect(page).toMatch(/id="field-lines\.1\.grams"[^>]*value="much"/);
    expect(page).toMatch(new RegExp(`value="${feldspar}" selected`));
    expect(page).not.toMatch(/id="field-lines\.2\.grams"[^>]*value="much"/);
  });

  it("say whose it was where somebody was first, and offer to put more in", async () => {
    const mix = await openMix(studio);
    await tick(studio, "reviewer", mix.id, { n: 1, grams: "400" });
    const form = { grams: "399", lot: "none", key: newKey() };
    const second = await studio.send("author", `/mixes/${mix.id}/lines/1`, { form });
    expect(second.status).toBe(409);
    const page = await second.text();
    expect(page).toContain("Tam Pellew put 400 g in");
    expect(page).toMatch(/<details open[^>]*><summary>Put more of it in/);
    expect(page).toMatch(/id="field-lines\.1\.grams"[^>]*value="399"/);
  });
});
