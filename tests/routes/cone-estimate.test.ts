import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { ConeEstimate } from "../../src/chem/cone-estimate.ts";
import type { ConeTable } from "../../src/chem/cone-tables.ts";
import { check } from "../../src/wire/body.ts";
import { coneEstimateBody } from "../../src/wire/cone-estimate-body.ts";
import { firing } from "../chem/firings.ts";
import { everybody, openTestStudio, type TestStudio } from "../studio.ts";

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const readings = firing({ peak: 1222, rate: 60 });
const fahrenheit = readings.map(([minutes, celsius]) => [minutes, celsius * 1.8 + 32]);
const lines = (pairs: readonly (readonly number[])[]) =>
  pairs.map(([minutes, celsius]) => `${minutes},${celsius?.toFixed(2)}`).join("\r\n");

// Orton's chart C-022-14 (2016): at 60 °C/h cone 6 ends at 1222 °C, 5 at 1186 and 7 at 1239.
const coneSix = { cone: "6", lower: "5", upper: "7", peakCelsius: 1222, equivalentCelsius: 1222 };

describe("POST /cone-estimate", () => {
  it.each(everybody)("tells the %s which cone it was", async (who) => {
    const answer = await studio.send(who, "/cone-estimate", { json: { readings } });
    expect(answer.status).toBe(200);
    const estimate = (await answer.json()) as ConeEstimate;
    expect(Object.keys(estimate)).toEqual([
      "cone",
      "lower",
      "upper",
      "peakCelsius",
      "rateCelsiusPerHour",
      "equivalentCelsius",
      "plusMinus",
      "says",
    ]);
    expect(estimate).toMatchObject({ ...coneSix, plusMinus: 10 });
    expect(estimate.rateCelsiusPerHour).toBeCloseTo(60, 6);
  });

  it("takes another table, °F, and lines of text", async () => {
    const estimate = async (json: unknown) =>
      (await studio.send("visitor", "/cone-estimate", { json })).json();
    const fast = firing({ peak: 1222, rate: 150 });
    expect(await estimate({ readings: fast, table: "older-large" })).toMatchObject({ cone: "6" });
    expect(await estimate({ readings: fast })).toMatchObject({ cone: "5" });
    expect(await estimate({ readings: fahrenheit, unit: "fahrenheit" })).toMatchObject({
      cone: "6",
    });
    expect(await estimate({ readings: lines(readings) })).toMatchObject(coneSix);
  });

  it("takes twenty thousand readings, and no more than a megabyte", async () => {
    const many = Array.from({ length: 20_000 }, (_, place) => [place * 0.06, 20 + place * 0.06]);
    expect(
      (await studio.send("visitor", "/cone-estimate", { json: { readings: many } })).status,
    ).toBe(200);
    const padded = { readings: many, pad: "x".repeat(1024 * 1024) };
    expect((await studio.send("visitor", "/cone-estimate", { json: padded })).status).toBe(413);
  });

  it("gives no upper cone after a hold", async () => {
    const held = firing({ peak: 1222, rate: 60, hold: 15 });
    const answer = await studio.send("visitor", "/cone-estimate", { json: { readings: held } });
    expect(await answer.json()).toMatchObject({
      cone: "6",
      upper: null,
      says: expect.stringContaining("a hold adds heat work which this does not count"),
    });
  });

  it.each<[string, unknown, string, RegExp]>([
    ["no readings", {}, "readings", /needed/],
    ["an empty list", { readings: [] }, "readings", /At least 3/],
    ["a pair that is none", { readings: [[1], [2, 3]] }, "readings.0", /minutes, temperature/],
    ["a reading that is a word", { readings: [["1", 2]] }, "readings.0.0", /number/],
    ["a table that is none", { readings, table: "mine" }, "table", /One of/],
    ["a unit that is none", { readings, unit: "kelvin" }, "unit", /One of/],
    [
      "a minute with two temperatures",
      { readings: [...readings, [1, 2]] },
      "readings",
      /Minute 1 /,
    ],
    [
      "no climb",
      {
        readings: [
          [0, 9],
          [1, 8],
          [2, 7],
        ],
      },
      "readings",
      /do not climb/,
    ],
    ["text that is no reading", { readings: "0,20\n30,warm" }, "readings", /Line 2: “30,warm”/],
  ])("refuses %s with its path", async (_, json, path, says) => {
    const answer = await studio.send("visitor", "/cone-estimate", { json });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map((error) => error.path)).toContain(path);
    expect(errors.map((error) => error.says).join(" ")).toMatch(says);
  });

  it("reads 20,000 readings as pairs or as text, and not one more", () => {
    const many = Array.from({ length: 20_000 }, (_, at): [number, number] => [
      at / 20,
      20 + at / 16,
    ]);
    for (const sent of [many, lines(many)])
      expect(check(coneEstimateBody, { readings: sent }).kind).toBe("read");
    const more: [number, number][] = [...many, [2000, 900]];
    for (const sent of [more, lines(more)]) {
      const read = check(coneEstimateBody, { readings: sent });
      expect(read.kind === "refused" && read.faults[0]).toEqual({
        path: "readings",
        says: "At most 20000 of these.",
      });
    }
  });

  it("reads what loggers write", () => {
    const read = check(coneEstimateBody, {
      readings: "minutes;celsius\n0;20\n\n  60\t125.5 \n120, 230\n180 335\n",
    });
    expect(read.kind === "read" && read.value.readings).toEqual([
      [0, 20],
      [60, 125.5],
      [120, 230],
      [180, 335],
    ]);
  });

  it("stores nothing", async () => {
    const before = await studio.json("manager", "/events");
    await studio.send("author", "/cone-estimate", { json: { readings } });
    expect(await studio.json("manager", "/events")).toEqual(before);
  });
});

describe("the page of a cone estimate", () => {
  const form = { readings: lines(readings), unit: "celsius", table: "self-supporting" };

  it("answers pasted lines with the cone, its edition and what was pasted", async () => {
    const answer = await studio.send("visitor", "/cone-estimate", { form });
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain("Near cone 6");
    expect(page).toContain("chart C-022-14 (2016)");
    expect(page).toContain("Believe the witness cone");
    expect(page).toContain("60,1032.00");
    expect(page).toContain("1222 °C (2232 °F)");
  });

  it("keeps what was pasted beside what is wrong with it", async () => {
    const answer = await studio.send("visitor", "/cone-estimate", {
      form: { ...form, readings: "0,20\nlater,hot" },
    });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain("later,hot</textarea>");
    expect(page).toContain("Line 2:");
  });

  it("has a JSON twin with the tables, each with its edition and how a figure is known", async () => {
    const { tables } = await studio.json<{ tables: ConeTable[] }>("visitor", "/cone-estimate");
    expect(tables.map(({ id }) => id)).toEqual(["self-supporting", "older-large", "seger-1896"]);
    const six = tables[0]?.rows.find(({ cone }) => cone === "6");
    expect(six?.endPoints[1]).toEqual({ celsius: 1222, how: "looked up in °F" });
    const page = await (await studio.send("visitor", "/cone-estimate")).text();
    expect(page).toContain("Orton self-supporting cones");
    expect(page).toContain("1222 (2232)");
  });
});
