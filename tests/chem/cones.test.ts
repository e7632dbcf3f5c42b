import { describe, expect, it } from "vitest";
import { compareCones, coneCelsius, cones, conesBetween, isCone } from "../../src/chem/cones.ts";
import table from "../reference/cone-temperatures.json" with { type: "json" };

type Printed = {
  table: string;
  cone: string;
  value: Record<string, number | null>;
  how: string | Record<string, string>;
};
const printed = (table as unknown as Printed[]).filter((row) => row.table.startsWith("large self"));
const seen = printed.filter(({ how }) =>
  (typeof how === "string" ? how : how["60"])?.startsWith("looked up"),
);

describe("cones", () => {
  it("go from 022 to 14 in the trade's order", () => {
    expect(cones.slice(0, 3)).toEqual(["022", "021", "020"]);
    expect(cones.slice(20, 24)).toEqual(["02", "01", "1", "2"]);
    expect(cones.at(-1)).toBe("14");
    expect(new Set(cones).size).toBe(36);
  });

  it("are never numbers: 06 is cooler than 04, and 04 than 4 and 6", () => {
    expect((["6", "04", "4", "06"] as const).toSorted(compareCones)).toEqual([
      "06",
      "04",
      "4",
      "6",
    ]);
    expect(compareCones("010", "10")).toBeLessThan(0);
    expect(compareCones("5", "5")).toBe(0);
  });

  it("keep their leading zero", () => {
    for (const text of ["06", "6", "022"]) expect(isCone(text)).toBe(true);
    for (const text of ["006", "6.0", " 6", "0", "5.5", "15", "", "length"])
      expect(isCone(text)).toBe(false);
  });

  it("lie between two others, both included", () => {
    expect(conesBetween("02", "2")).toEqual(["02", "01", "1", "2"]);
    expect(conesBetween("6", "6")).toEqual(["6"]);
    expect(conesBetween("6", "06")).toEqual([]);
  });

  // Edward Orton Jr. Ceramic Foundation, "Temperature Equivalents for Orton Pyrometric Cones (°C)",
  // chart C-022-14 (2016), self-supporting cones at 60 °C/h; those seen in print only.
  it.each(seen)("carry the printed end point: cone $cone", ({ cone, value }) => {
    if (!isCone(cone)) throw new Error(cone);
    expect(coneCelsius(cone)).toMatchObject({ celsius: value["60"], rate: 60 });
  });

  it("carry no end point that was not seen in print", () => {
    expect(seen.length).toBe(33);
    const without = cones.filter((cone) => coneCelsius(cone) === undefined);
    expect(without).toEqual(["11", "12", "14"]);
  });

  it("grow hotter along the list", () => {
    const temperatures = cones.flatMap((cone) => coneCelsius(cone)?.celsius ?? []);
    expect(temperatures).toEqual(temperatures.toSorted((a, b) => a - b));
  });
});
