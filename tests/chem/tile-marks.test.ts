import { describe, expect, it } from "vitest";
import { trialCode, trialMark } from "../../src/chem/tile-marks.ts";

describe("the letters of a trial", () => {
  it("are two, in the order of the alphabet, and three once those are used up", () => {
    expect([0, 1, 22, 23, 528, 529].map(trialCode)).toEqual(["AA", "AB", "AZ", "BA", "ZZ", "AAA"]);
    expect(trialMark({ code: "BC" }, 12)).toBe("BC12");
  });

  it("are never twice the same, and none that reads as a number", () => {
    const codes = Array.from({ length: 2000 }, (_, before) => trialCode(before));
    expect(new Set(codes).size).toBe(codes.length);
    expect(codes.filter((code) => /[IOQ]/.test(code))).toEqual([]);
  });
});
