import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { addMaterial } from "../../src/db/material-adding.ts";
import { matchMaterials } from "../../src/db/material-matching.ts";
import { addName } from "../../src/db/material-names.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("matching materials", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    const act = { by: studio.ids.manager, at: new Date("2026-02-01T10:00:00Z") };
    const shelf: [string, string, ...[string, string, string][]][] = [
      ["Quartz", "the United Kingdom", ["Silica", "the United States", "Ask for 325 mesh."]],
      ["Silica fume", "", ["Silica", "some catalogues", "Far too fine for a glaze."]],
      ["Potash feldspar", ""],
      ["Soda feldspar", ""],
      ["Whiting", "", ["Spanish white", "older books", ""], ["Chalk", "older books", ""]],
      ["Bone ash", ""],
      ["Loft frit B", ""],
      ["Frit 12", ""],
      ["Frit 13", ""],
      ["Zinc oxide", ""],
      ["Talc", "", ["Whiting", "one old ledger", "Look at the sack."]],
      ["Ball clay", ""],
    ];
    for (const [name, region, ...names] of shelf) {
      const added = await addMaterial(studio.db, {
        name,
        region,
        kind: "powder",
        about: "",
        hazards: [],
        given: null,
        ...act,
      });
      if (added.kind !== "added") throw new Error(name);
      for (const [other, where, caution] of names) {
        const naming = { materialId: added.id, name: other, region: where, caution };
        await addName(studio.db, { ...naming, ...act });
      }
    }
  });
  afterAll(() => studio.close());

  const match = async (typed: string) => (await matchMaterials(studio.db, [typed])).get(typed);
  const asked = async (typed: string) => {
    const found = await match(typed);
    return found?.kind === "ask"
      ? found.candidates.map(({ material }) => material.name)
      : found?.kind;
  };

  it.each([
    ["quartz", "Quartz"],
    ["QUARTZ", "Quartz"],
    [" Potash  Feldspar ", "Potash feldspar"],
    ["potash-feldspar", "Potash feldspar"],
    ["Loft Frit B", "Loft frit B"],
    ["frit-12", "Frit 12"],
    // An address is sure, whatever else the word may mean to people.
    ["whiting", "Whiting"],
  ])("is sure of %j", async (typed, name) => {
    expect(await match(typed)).toMatchObject({ kind: "sure", material: { name } });
  });

  it.each([
    ["another region's name", "Chalk", ["Whiting"]],
    ["a word of two materials", "Silica", ["Quartz", "Silica fume"]],
    ["a main name that is another's elsewhere", "Whiting", ["Whiting", "Talc"]],
    ["a slip of the pen", "Pottash feldspar", ["Potash feldspar"]],
    ["two slips in a longer name", "Potesh feldpsar", ["Potash feldspar"]],
    ["a slip in a short name", "Tacl", "unknown"],
    ["one letter off a short name", "Tolc", ["Talc"]],
    ["a plural", "Ball clays", ["Ball clay"]],
    ["another order of words", "Feldspar, potash", ["Potash feldspar"]],
    ["another order and a slip", "Ashes bone", ["Bone ash"]],
    ["brackets and dashes", "Bone-ash (fine)", ["Bone ash"]],
    ["a part of two names", "Feldspar", ["Potash feldspar", "Soda feldspar"]],
    ["another number", "Frit 14", ["Frit 12", "Frit 13"]],
    ["nothing like it", "Custard powder", "unknown"],
    ["nothing", "  ", "unknown"],
    ["signs only", "???", "unknown"],
    ["a text far too long", "feldspar ".repeat(400), "unknown"],
    ["a character no name has", "Quartz\u0000", ["Quartz"]],
  ])("does not guess at %s: %j", async (_, typed, expected) => {
    expect(await asked(typed)).toEqual(expected);
  });

  it("says why it asks, with the region and the caution", async () => {
    const found = await match("Silica");
    if (found?.kind !== "ask") throw new Error("it should ask");
    expect(found.candidates[0]?.because).toBe(
      "“Silica” is a name of Quartz elsewhere (the United States). The word names more than one powder. Ask for 325 mesh.",
    );
    const near = await match("Frit 14");
    if (near?.kind !== "ask") throw new Error("it should ask");
    expect(near.candidates[0]?.because).toContain("another number");
  });

  it("gives the same answer to the same words, however many are asked about", async () => {
    const typed = ["Silica", "Feldspar", "Quartz", "Frit 14", "Silica"];
    const together = await matchMaterials(studio.db, typed);
    expect([...together.keys()]).toEqual(["Silica", "Feldspar", "Quartz", "Frit 14"]);
    expect(await matchMaterials(studio.db, typed)).toEqual(together);
    for (const word of typed) expect(await match(word)).toEqual(together.get(word));
  });

  it("asks about five at most", async () => {
    const act = { by: studio.ids.manager, at: new Date("2026-02-02T10:00:00Z") };
    for (const letter of "ABCDEFG") {
      const name = `Slip ${letter}`;
      const rest = { region: "", kind: "powder", about: "", hazards: [], given: null };
      await addMaterial(studio.db, { name, ...rest, ...act });
    }
    expect(await asked("Slip")).toEqual(["Slip A", "Slip B", "Slip C", "Slip D", "Slip E"]);
  });
});
