import type { DemoGlaze } from "./glazes.ts";

/** Two glazes that need the boron mineral that is no longer sold. */
export const borrowedBoron: readonly DemoGlaze[] = [
  {
    name: "Sluice Amber",
    shownTo: "public",
    revisions: [
      {
        by: "jonah",
        at: "2026-01-22T19:50:00Z",
        message: "Amber from iron and rutile over boron.",
        base: [
          ["Soda feldspar", "30"],
          ["Colemanite", "16"],
          ["Whiting", "8"],
          ["Talc", "6"],
          ["Kaolin", "16"],
          ["Quartz", "24"],
        ],
        additions: [
          ["Red iron oxide", "4"],
          ["Rutile", "3"],
        ],
        use: "decorative",
        cones: ["5", "6"],
        surface: "gloss, amber",
        about: "Spits if it goes on thick.",
      },
    ],
    withdrawn: {
      by: "jonah",
      at: "2026-06-24T20:05:00Z",
      why: "Blistered in three firings running, worse with every tub of colemanite, and there is no more to be had. Use Wrack Line.",
    },
  },
  {
    name: "Curlew",
    shownTo: "studio",
    revisions: [
      {
        by: "tam",
        at: "2026-03-03T11:10:00Z",
        message:
          "A grey for the library's tiles. In the studio only, until the colemanite is replaced.",
        base: [
          ["Potash feldspar", "34"],
          ["Colemanite", "16"],
          ["Whiting", "8"],
          ["Dolomite", "6"],
          ["Kaolin", "16"],
          ["Quartz", "20"],
        ],
        additions: [
          ["Red iron oxide", "2"],
          ["Cobalt carbonate", "0.4"],
          ["Nickel oxide", "0.2"],
        ],
        use: "decorative",
        cones: ["6", "6"],
        surface: "gloss, grey",
        about: "Keep it off cups: the nickel wants a laboratory's word first.",
      },
    ],
  },
];
