import { describe, expect, it } from "vitest";
import { mentionedIn } from "../../src/db/mentions.ts";

const people = [
  { id: "ines", name: "Ines Okafor" },
  { id: "tam", name: "Tam Pellew" },
  { id: "rukmini", name: "Rukmini Vale" },
  { id: "zoe", name: "Zoë Vale-Marsh" },
  { id: "marta", name: "Marta Quill" },
  { id: "marta-b", name: "Marta Quillfeather" },
  { id: "sefton", name: "Sefton" },
  { id: "sefton-a", name: "Sefton Ayre" },
];

describe("whom a text calls by name", () => {
  it.each<[string, string[]]>([
    ["@Ines Okafor, please look", ["ines"]],
    ["@Ines, please look", ["ines"]],
    ["please look @ines", ["ines"]],
    ["@INES OKAFOR!", ["ines"]],
    ["(@Tam) and @Ines.", ["tam", "ines"]],
    ["@Tam, @Tam and @Tam Pellew", ["tam"]],
    ["@Tam's tile", ["tam"]],
    ["@Tam: see line 2\n@Rukmini\nVale too", ["tam", "rukmini"]],
    ["“@Tam” — @Ines", ["tam", "ines"]],
    ["@zoe vale marsh", ["zoe"]],
    ["@Zoë-nothing", ["zoe"]],
    // Longest first, and a first name that two have is nobody's.
    ["@Marta Quillfeather", ["marta-b"]],
    ["@Marta Quill", ["marta"]],
    ["@Marta Quills", []],
    ["@Marta", []],
    ["@Sefton", ["sefton"]],
    ["@Sefton Ayre", ["sefton-a"]],
    // No name at all.
    ["Tam Pellew", []],
    ["@ Tam", []],
    ["@", []],
    ["@@@Tam", ["tam"]],
    ["@Tammy", []],
    ["@Tam2", []],
    ["@Nobody", []],
    ["", []],
    // E-mail addresses.
    ["ask somebody@tam", []],
    ["ines.okafor+glaze@Tam", []],
    ["write to kiln@ines.example", []],
    ["@tam@saltmarsh.example", []],
    ["@tam.pellew@saltmarsh.example", []],
    ["See @Tam.", ["tam"]],
    ["See @Tam.Then @Ines", ["tam", "ines"]],
  ])("%j calls %j", (text, called) => {
    expect(mentionedIn(text, people)).toEqual(called);
  });

  it("knows nobody where two people have one name", () => {
    const twins = [
      { id: "one", name: "Tam Pellew" },
      { id: "other", name: "tam  pellew" },
    ];
    expect(mentionedIn("@Tam Pellew and @Tam", twins)).toEqual([]);
  });

  // Anything that grows faster than the text would not be done with this before the test's time.
  it("takes a long text of nothing but calls", () => {
    expect(mentionedIn("@Tam ".repeat(100_000), people)).toEqual(["tam"]);
  });
});
