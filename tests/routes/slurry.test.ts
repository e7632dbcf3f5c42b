import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Slurry } from "../../src/chem/slurry.ts";
import { everybody, openTestStudio, type TestStudio } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

describe("POST /slurry", () => {
  // A. Brongniart, "Traité des arts céramiques", 1844 (relation from memory): a pint of 36 oz of a
  // powder of 2.6 holds 26 oz, 72.222 % of the weight; Circular 19 has 48.333 °Bé at 1.5.
  it.each(everybody)("tells the %s what a slurry holds, in numbers", async (who) => {
    const answer = await studio.send(who, "/slurry", {
      json: {
        specificGravity: "1.8",
        drySpecificGravity: "2.6",
        litres: "10",
        targetGravity: "1.5",
      },
    });
    expect(answer.status).toBe(200);
    const { says, ...numbers } = (await answer.json()) as Slurry;
    expect(says).toContain("stirred, no froth, little soluble matter");
    expect(numbers.dryGrams).toBeCloseTo(13_000, 6);
    expect(numbers.drySharePercent).toBeCloseTo(72.222, 3);
    expect(numbers.ouncesPerImperialPint).toBe(36);
    expect(numbers.twaddell).toBe(160);
    expect(numbers.addWaterGrams).toBe(6000);
    for (const value of Object.values(numbers)) expect(typeof value).toBe("number");
  });

  it("takes a litre of a powder of 2.65 where nothing is said, and numbers as well as strings", async () => {
    const answer = await studio.send("visitor", "/slurry", { json: { specificGravity: 1.4 } });
    const slurry = (await answer.json()) as Slurry;
    expect(slurry.slurryGrams).toBe(1400);
    // The reference's own sum: 28 oz a pint of a powder of 2.65 is 45.887 % dry.
    expect(slurry.drySharePercent).toBeCloseTo(45.887, 3);
    expect(slurry).not.toHaveProperty("addWaterGrams");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["no gravity", {}, "specificGravity"],
    ["a gravity that is a word", { specificGravity: "thick" }, "specificGravity"],
    ["water", { specificGravity: "1" }, "specificGravity"],
    ["an exponent", { specificGravity: "1e1" }, "specificGravity"],
    ["a target of water", { specificGravity: "1.5", targetGravity: "1" }, "targetGravity"],
    ["no litres", { specificGravity: "1.5", litres: "0" }, "litres"],
    [
      "a powder that floats",
      { specificGravity: "1.5", drySpecificGravity: "0.9" },
      "drySpecificGravity",
    ],
  ])("refuses %s with its path", async (_, json, path) => {
    const answer = await studio.send("visitor", "/slurry", { json });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map((error) => error.path)).toEqual([path]);
  });

  it("stores nothing", async () => {
    const before = await studio.json("manager", "/events");
    await studio.send("author", "/slurry", { json: { specificGravity: "1.5" } });
    expect(await studio.json("manager", "/events")).toEqual(before);
  });
});

describe("the page of a slurry", () => {
  it("answers a form with what was typed still in it", async () => {
    const form = {
      specificGravity: "1.62",
      drySpecificGravity: "",
      litres: "8",
      targetGravity: "1.45",
    };
    const answer = await studio.send("visitor", "/slurry", { form });
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain('value="1.62"');
    // By hand: 1000 × 8 × 0.17 / 0.45 = 3022.2.
    expect(page).toContain("Add 3022 g of water");
    expect(page).toContain("stirred, no froth, little soluble matter");
  });

  it("says to take water off where the slurry is too thin", async () => {
    const form = { specificGravity: "1.4", targetGravity: "1.45" };
    const page = await (await studio.send("visitor", "/slurry", { form })).text();
    expect(page).toContain("Take off 111 g of water");
  });

  it("keeps what was typed beside what is wrong with it", async () => {
    const answer = await studio.send("visitor", "/slurry", { form: { specificGravity: "0.7" } });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('value="0.7"');
    expect(page).toContain('href="#field-specificGravity"');
  });

  it("has a JSON twin that says what is taken unless told", async () => {
    expect(await studio.json("visitor", "/slurry")).toEqual({
      drySpecificGravity: "2.65",
      litres: "1",
      says: "stirred, no froth, little soluble matter",
    });
    const page = await (await studio.send("visitor", "/slurry")).text();
    expect(page).toContain('value="2.65"');
  });
});
