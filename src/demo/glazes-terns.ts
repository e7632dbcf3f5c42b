import type { DemoGlaze, DemoRevision } from "./glazes.ts";

/** The six base materials that the whole family is made of. */
export const ternShelf = [
  "Potash feldspar",
  "Loft frit B",
  "Whiting",
  "Dolomite",
  "Quartz",
  "Kaolin",
] as const;

const inOrder = (...amounts: string[]) =>
  ternShelf.map((material, place) => [material, amounts[place] ?? "0"] as const);

const tern = (
  at: string,
  revision: Pick<DemoRevision, "message" | "base" | "surface" | "about"> & Partial<DemoRevision>,
): DemoRevision => ({ by: "ines", at, use: "functional", cones: ["5", "6"], ...revision });

/** Four glazes from six bins, so that a class can mix all of them in an evening. */
export const ternFamily: readonly DemoGlaze[] = [
  {
    name: "Little Tern",
    shownTo: "public",
    revisions: [
      tern("2026-05-26T09:00:00Z", {
        message: "The clear of the family.",
        base: inOrder("28", "24", "9", "5", "20", "14"),
        surface: "gloss, clear",
        about: "The base that the white one shares. Two seconds.",
      }),
    ],
  },
  {
    name: "Common Tern",
    shownTo: "public",
    revisions: [
      tern("2026-05-26T09:20:00Z", {
        message: "The same six bins, satin: dolomite up, quartz down.",
        base: inOrder("30", "18", "5", "14", "15", "18"),
        surface: "satin",
        about: "Needs the slow cooling of Gannet; out of Wren it is glossier.",
      }),
    ],
  },
  {
    name: "Arctic Tern",
    shownTo: "public",
    revisions: [
      tern("2026-05-26T09:40:00Z", {
        message: "Little Tern made white with tin and zircon.",
        base: inOrder("28", "24", "9", "5", "20", "14"),
        additions: [
          ["Tin oxide", "5"],
          ["Zirconium silicate", "4"],
        ],
        surface: "gloss, white",
        about: "Covers stoneware in one good coat of three seconds.",
      }),
      tern("2026-07-13T09:05:00Z", {
        message: "Tin down by two, zircon up by three: as white, for half the money.",
        base: inOrder("28", "24", "9", "5", "20", "14"),
        additions: [
          ["Tin oxide", "3"],
          ["Zirconium silicate", "7"],
        ],
        surface: "gloss, white",
        about: "Covers stoneware in one good coat of three seconds.",
      }),
    ],
  },
  {
    name: "Black Tern",
    shownTo: "public",
    revisions: [
      tern("2026-05-26T10:00:00Z", {
        message: "Black from iron and a little cobalt, without manganese.",
        base: inOrder("32", "20", "12", "4", "20", "12"),
        additions: [
          ["Red iron oxide", "9"],
          ["Cobalt carbonate", "0.75"],
        ],
        surface: "gloss, black",
        about: "Brown where it is thin. Stir before every pot.",
      }),
    ],
  },
];
