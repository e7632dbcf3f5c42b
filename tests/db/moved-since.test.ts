import { Decimal } from "decimal.js";
import { describe, expect, it } from "vitest";
import { movedSince, type Now, type PutOn } from "../../src/db/moved-since.ts";

const line = (name: string, amount: string, part: "base" | "addition" = "base") => ({
  part,
  material: { name },
  amount: new Decimal(amount),
});

const now: Now = {
  number: 3,
  lines: [
    line("Kaolin", "15.0"),
    line("Whiting", "18"),
    line("Rutile", "4", "addition"),
    line("Quartz", "10"),
    line("Quartz", "5.5"),
    line("Zinc oxide", "2", "addition"),
  ],
  unity: { SiO2: { value: 2.95 }, CaO: { value: 0.7004 } },
  withdrawnTiles: new Set(["gone"]),
};

const onLine = (material: string, amount: string, part: "base" | "addition" = "base"): PutOn => ({
  revision: 2,
  kind: "line",
  key: "0",
  snapshot: { says: `${material} ${amount}`, material, amount, part },
});
const onOxide = (key: string, value: string): PutOn => ({
  revision: 2,
  kind: "oxide",
  key,
  snapshot: { says: `${key} ${value} in the unity formula` },
});
const onTile = (key: string): PutOn => ({
  revision: 2,
  kind: "tile",
  key,
  snapshot: { says: "tile at cone 6" },
});

describe("what became of the place of a note", () => {
  it.each<[string, PutOn, string | null]>([
    [
      "the whole never moves",
      { revision: 1, kind: "whole", key: null, snapshot: { says: "revision 1" } },
      null,
    ],
    ["a line at another place", onLine("Kaolin", "15"), null],
    ["another amount", onLine("Whiting", "20"), "on revision 2: Whiting 20; now 18"],
    ["a line that is gone", onLine("Talc", "4"), "Talc is no longer in it"],
    ["one of two lines of a powder", onLine("Quartz", "5.5"), null],
    ["neither of two lines", onLine("Quartz", "20"), "on revision 2: Quartz 20; now 10 and 5.5"],
    ["another part", onLine("Zinc oxide", "2"), "Zinc oxide is no longer in the base"],
    [
      "the base instead of the additions",
      onLine("Kaolin", "15", "addition"),
      "Kaolin is no longer among the additions",
    ],
    ["an addition as it was", onLine("Rutile", "4", "addition"), null],
    ["an oxide as it was", onOxide("CaO", "0.700"), null],
    [
      "an oxide that moved",
      onOxide("SiO2", "3.012"),
      "SiO2 3.012 in the unity formula then, 2.950 now",
    ],
    ["an oxide that is gone", onOxide("ZnO", "0.020"), "ZnO is no longer in the unity formula"],
    ["a tile that hangs there", onTile("there"), null],
    ["a tile that was withdrawn", onTile("gone"), "that tile was withdrawn since"],
  ])("%s", (_, put, says) => {
    expect(movedSince(put, now)).toBe(says);
  });

  it("finds no oxide where there is no unity formula any more", () => {
    expect(movedSince(onOxide("SiO2", "3.012"), { ...now, unity: null })).toBe(
      "SiO2 is no longer in the unity formula",
    );
  });
});
