import type { DemoGlaze } from "./glazes.ts";
import { borrowedBoron } from "./glazes-boron.ts";

/** Glazes that stay decorative only, those that need the boron mineral, and somebody's first draft. */
export const decorativeGlazes: readonly DemoGlaze[] = [
  {
    name: "Haar",
    shownTo: "public",
    revisions: [
      {
        by: "rukmini",
        at: "2026-03-10T18:45:00Z",
        message: "Barium matt for the tall pieces. Weighed with Tam.",
        base: [
          ["Nepheline syenite", "40"],
          ["Barium carbonate", "28"],
          ["Loft frit B", "8"],
          ["Kaolin", "8"],
          ["Quartz", "16"],
        ],
        additions: [["Copper carbonate", "3"]],
        use: "decorative",
        cones: ["5", "6"],
        surface: "matt, turquoise",
        about:
          "Sculpture and the outsides of tall vases. Never the inside, never the rim.\nThe powder is locked away; ask Ines, and weigh it with somebody beside you.",
      },
    ],
  },
  {
    name: "Groyne Lichen",
    shownTo: "public",
    revisions: [
      {
        by: "sefton",
        at: "2026-03-25T12:15:00Z",
        message: "Crawls into islands. Written down in fifties, as my notebook has it.",
        base: [
          ["Nepheline syenite", "19"],
          ["Magnesium carbonate", "16"],
          ["Loft frit B", "7"],
          ["Kaolin", "5"],
          ["Quartz", "3"],
        ],
        additions: [["Loft stain coral", "3"]],
        use: "decorative",
        cones: ["6", "6"],
        surface: "dry, crawled",
        about:
          "Thick, over a dark slip, on things that hang on a wall. Crumbs come off: wear glasses.",
      },
    ],
  },
  {
    name: "Starling",
    shownTo: "public",
    revisions: [
      {
        by: "jonah",
        at: "2026-04-14T20:30:00Z",
        message: "Metal. Manganese and copper do the melting.",
        base: [
          ["Potash feldspar", "52"],
          ["Ball clay", "28"],
          ["Loft frit B", "12"],
          ["Quartz", "8"],
        ],
        additions: [
          ["Manganese dioxide", "45"],
          ["Copper carbonate", "10"],
          ["Cobalt carbonate", "2"],
        ],
        use: "decorative",
        cones: ["5", "6"],
        surface: "satin, metallic",
        about:
          "Sculpture only, fired in Wren with the fan on and nobody in the room. Runs: use a dish.",
      },
    ],
  },
  ...borrowedBoron,
  {
    name: "Sea Fret",
    shownTo: "private",
    revisions: [
      {
        by: "marta",
        at: "2026-10-20T19:40:00Z",
        message: "My first. Not weighed yet.",
        base: [
          ["Nepheline syenite", "30"],
          ["Loft frit B", "25"],
          ["Whiting", "10"],
          ["Quartz", "25"],
          ["Kaolin", "10"],
        ],
        additions: [["Titanium dioxide", "6"]],
        use: "decorative",
        cones: ["6", "6"],
        surface: "satin, milky",
        about: "Asked Rukmini what the frit is for and wrote this down after.",
      },
    ],
  },
];
