import type { Who } from "./people.ts";

/** Specific gravities of minerals as textbooks have them, from memory: the mineral, not the bag. */
export const demoGravities: readonly [powder: string, mineral: string, gravity: string][] = [
  ["Quartz", "quartz", "2.65"],
  ["Potash feldspar", "orthoclase", "2.56"],
  ["Soda feldspar", "albite", "2.62"],
  ["Whiting", "calcite", "2.71"],
  ["Kaolin", "kaolinite", "2.61"],
  ["Dolomite", "dolomite", "2.87"],
  ["Wollastonite", "wollastonite", "2.86"],
  ["Talc", "talc", "2.75"],
  ["Zinc oxide", "zincite", "5.61"],
  ["Barium carbonate", "witherite", "4.29"],
  ["Red iron oxide", "hematite", "5.26"],
  ["Rutile", "rutile", "4.23"],
  ["Tin oxide", "cassiterite", "6.95"],
  ["Zirconium silicate", "zircon", "4.65"],
];

type Reading = { at: string; by: Who; gravity: string; litres: string; flow?: string } & {
  unstirred?: true;
  note?: string;
};

export type DemoCare = {
  bucket: string;
  directedAt: string;
  gravity: readonly [low: string, high: string];
  flow: readonly [low: string, high: string];
  dipSeconds: string;
  footMm: string;
  catchDish: boolean;
  readings: readonly Reading[];
};

/** Some buckets over some weeks: one that dried up and was thinned, one that set in its bucket. */
export const demoCare: readonly DemoCare[] = [
  {
    bucket: "Slack Water, big tub",
    directedAt: "2026-07-18T10:00:00Z",
    gravity: ["1.43", "1.47"],
    flow: ["30", "38"],
    dipSeconds: "3",
    footMm: "5",
    catchDish: false,
    readings: [
      { at: "2026-07-25T09:00:00Z", by: "ines", gravity: "1.46", litres: "19", flow: "34" },
      { at: "2026-08-08T09:10:00Z", by: "rukmini", gravity: "1.46", litres: "17.5", flow: "35" },
      { at: "2026-08-22T09:00:00Z", by: "ines", gravity: "1.45", litres: "16", flow: "33" },
      { at: "2026-09-12T10:00:00Z", by: "jonah", gravity: "1.49", litres: "14", flow: "44" },
      { at: "2026-09-12T10:40:00Z", by: "jonah", gravity: "1.45", litres: "15.2", flow: "34" },
      { at: "2026-10-10T09:00:00Z", by: "rukmini", gravity: "1.43", litres: "13", flow: "31" },
    ],
  },
  {
    bucket: "Little Tern",
    directedAt: "2026-08-14T09:30:00Z",
    gravity: ["1.47", "1.51"],
    flow: ["36", "46"],
    dipSeconds: "2.5",
    footMm: "8",
    catchDish: true,
    readings: [
      { at: "2026-08-20T09:00:00Z", by: "ines", gravity: "1.49", litres: "11.5", flow: "40" },
      {
        ...{ at: "2026-09-05T18:20:00Z", by: "marta", gravity: "1.31", litres: "11", flow: "21" },
        ...{ unstirred: true, note: "Only the top of it. I know now." },
      },
      { at: "2026-09-05T18:50:00Z", by: "marta", gravity: "1.49", litres: "11", flow: "43" },
      { at: "2026-10-03T09:00:00Z", by: "ines", gravity: "1.5", litres: "9", flow: "58" },
    ],
  },
  {
    bucket: "Slack Water, dipping bucket",
    directedAt: "2026-09-05T11:00:00Z",
    gravity: ["1.43", "1.47"],
    flow: ["30", "38"],
    dipSeconds: "3",
    footMm: "5",
    catchDish: false,
    readings: [
      { at: "2026-09-13T08:30:00Z", by: "ines", gravity: "1.46", litres: "7.5", flow: "34" },
      { at: "2026-10-10T09:20:00Z", by: "rukmini", gravity: "1.45", litres: "6", flow: "33" },
    ],
  },
  {
    bucket: "Common Tern",
    directedAt: "2026-08-14T12:00:00Z",
    gravity: ["1.46", "1.5"],
    flow: ["34", "44"],
    dipSeconds: "2.5",
    footMm: "5",
    catchDish: false,
    readings: [
      { at: "2026-08-20T09:10:00Z", by: "ines", gravity: "1.48", litres: "11.5", flow: "38" },
      { at: "2026-10-03T09:10:00Z", by: "ines", gravity: "1.48", litres: "10", flow: "40" },
    ],
  },
];

/** What the tub was thinned with, and what somebody noticed after the last proof tile. */
export const demoThinning = {
  at: "2026-09-12T10:20:00Z",
  by: "jonah",
  millilitres: "1200",
} as const;
export const demoReport = {
  at: "2026-10-11T17:30:00Z",
  by: "rukmini",
  note: "The proof tile came out greyer than the first two.",
} as const;
