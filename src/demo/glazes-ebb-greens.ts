import type { DemoGlaze } from "./glazes.ts";

/** A fork of Slack Water, and what was forked from that. */
export const ebbGreens: readonly DemoGlaze[] = [
  {
    name: "Ebb Green",
    shownTo: "public",
    forkOf: { name: "Slack Water", number: 2 },
    revisions: [
      {
        by: "jonah",
        at: "2026-02-24T20:00:00Z",
        message: "Rukmini's second clear with copper in it.",
        base: [
          ["Soda feldspar", "22"],
          ["Loft frit B", "24"],
          ["Whiting", "14"],
          ["Quartz", "25"],
          ["Kaolin", "15"],
        ],
        additions: [["Copper carbonate", "3"]],
        use: "functional",
        cones: ["6", "6"],
        surface: "gloss, transparent",
        about: "Pools dark in carving.",
      },
      {
        by: "jonah",
        at: "2026-03-31T19:30:00Z",
        message: "Half the copper: still green, and less of it to ask the laboratory about.",
        base: [
          ["Soda feldspar", "22"],
          ["Loft frit B", "24"],
          ["Whiting", "14"],
          ["Quartz", "25"],
          ["Kaolin", "15"],
        ],
        additions: [["Copper carbonate", "1.5"]],
        use: "decorative",
        cones: ["6", "6"],
        surface: "gloss, transparent",
        about:
          "Pools dark in carving. Decorative only until there is a leach report for the copper.",
      },
    ],
  },
  {
    name: "Neap Green",
    shownTo: "public",
    forkOf: { name: "Ebb Green", number: 2 },
    revisions: [
      {
        by: "sefton",
        at: "2026-04-28T15:25:00Z",
        message: "Jonah's green made satin with dolomite, and a breath of rutile to warm it.",
        base: [
          ["Soda feldspar", "26"],
          ["Loft frit B", "20"],
          ["Whiting", "4"],
          ["Dolomite", "16"],
          ["Quartz", "17"],
          ["Kaolin", "17"],
        ],
        additions: [
          ["Copper carbonate", "1.5"],
          ["Rutile", "2"],
        ],
        use: "decorative",
        cones: ["6", "6"],
        surface: "satin",
        about: "For the outsides of vases and lamp bases.",
      },
    ],
  },
];
