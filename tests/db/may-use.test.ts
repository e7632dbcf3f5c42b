import { describe, expect, it } from "vitest";
import { cautionsOfUse, mayUseOf, testBucket, type UseFacts } from "../../src/db/may-use.ts";

const good: UseFacts = {
  is: "open",
  mixed: true,
  stirredUp: false,
  forTest: false,
  standing: { is: "approved", for: "functional" },
  recalls: [],
  moved: [],
  notThisLot: [],
  reports: [],
};
const decorative = { is: "approved", for: "decorative" } as const;
const reported = (trouble: UseFacts["reports"][number]["trouble"]) => ({
  reports: [{ trouble, by: "Marta Quill", at: new Date("2026-09-01T10:00:00Z") }],
});

describe("whether members may use a bucket", () => {
  it.each<[string, Partial<UseFacts>, food: boolean, decorative: boolean, says: string | null]>([
    ["open and approved as functional", {}, true, true, null],
    ["approved as decorative", { standing: decorative }, false, true, "as decorative only"],
    ["empty", { is: "empty" }, false, false, "It is empty."],
    ["on hold", { is: "hold" }, false, false, "on hold: do not use it"],
    ["not mixed", { is: "hold", mixed: false }, false, false, "Not mixed yet"],
    ["open and not mixed", { mixed: false }, false, false, "Not mixed yet"],
    ["topped up and not finished", { stirredUp: true }, false, false, "until that mix is finished"],
    ["a draft", { standing: { is: "draft", for: null } }, false, false, "Nobody has approved"],
    [
      "in review",
      { standing: { is: "in review", for: null } },
      false,
      false,
      "Nobody has approved",
    ],
    [
      "in need of another look",
      { standing: { is: "needs another look", for: "functional" } },
      false,
      false,
      "needs another look",
    ],
    ["withdrawn", { standing: { is: "withdrawn", for: null } }, false, false, "was withdrawn"],
    [
      "for a test",
      { forTest: true, standing: { is: "draft", for: null } },
      false,
      false,
      testBucket,
    ],
    ["for a test, approved since", { forTest: true }, false, true, testBucket],
    [
      "recalled",
      { recalls: [{ why: "Barium went in." }] },
      false,
      false,
      "Recalled: do not use. Barium",
    ],
    [
      "moved",
      { moved: ["CaO in the unity formula from 0.700 to 0.650"] },
      false,
      false,
      "no longer what was approved: CaO in the unity formula from 0.700 to 0.650.",
    ],
    [
      "of a lot without analysis",
      { notThisLot: ["Kaolin"] },
      true,
      true,
      "Not this lot's analysis: Kaolin.",
    ],
    [
      "of many lots without analysis",
      { notThisLot: ["Kaolin", "Quartz", "Talc", "Whiting"] },
      true,
      true,
      "Not this lot's analysis: Kaolin, Quartz and 2 more.",
    ],
    ["contaminated", reported("contaminated"), false, false, "2026-09-01: contaminated."],
    ["of another colour", reported("wrong colour"), false, true, "2026-09-01: wrong colour."],
    ["without a label", reported("no label"), false, true, "2026-09-01: no label."],
    ["lumpy", reported("lumpy"), true, true, "2026-09-01: lumpy."],
    ["thin", reported("thin"), true, true, "2026-09-01: thin."],
  ])("of one that is %s", (_, different, food, onlyLooks, says) => {
    const may = mayUseOf({ ...good, ...different });
    expect([may.food, may.decorative]).toEqual([food, onlyLooks]);
    if (says === null) expect(may.because).toEqual([]);
    else expect(may.because).toEqual([expect.stringContaining(says)]);
  });

  it("names all that speaks against it, the worst first, and cautions of nothing that was approved", () => {
    const facts: UseFacts = {
      ...good,
      is: "hold",
      standing: decorative,
      recalls: [{ why: "Barium went in." }],
      moved: ["BaO is new in it, and can leach"],
      ...reported("thin"),
    };
    const { because } = mayUseOf(facts);
    expect(because.map((says) => says.split(" ")[0])).toEqual([
      "Recalled:",
      "This",
      "What",
      "Marta",
      "Its",
    ]);
    expect(cautionsOfUse(facts)).toEqual(because.slice(0, -1));
  });

  it("says of a test bucket how far it is from its recipe, since nobody approved it", () => {
    const facts: UseFacts = {
      ...good,
      forTest: true,
      standing: { is: "draft", for: null },
      moved: ["BaO is new in it, and can leach"],
    };
    expect(mayUseOf(facts).because).toEqual([
      testBucket,
      "What is in it is further from its recipe than an approval bears: BaO is new in it, and can leach.",
    ]);
  });
});
