import type { Who } from "./people.ts";

type Figures = readonly [lightness: number, a: number, b: number];

/** A proof tile of a bucket, with its colour where the instrument read it. */
export type DemoProof = {
  of: { glaze: string; number: number; name: string };
  firedOn: string;
  by: Who;
  remark: string;
  lab?: Figures;
  gravity: string;
};

/** The bucket that is proved, as the demo's data calls what is in it and what is on its label. */
export const proved = { glaze: "Slack Water", number: 3, name: "Slack Water, big tub" } as const;

/** Oldest first: the last of the tub is over the studio's line. */
export const demoProofs: readonly DemoProof[] = [
  {
    of: proved,
    firedOn: "2026-07-25",
    by: "ines",
    remark: "The first out of the tub: clear and level.",
    lab: [83.92, -5.81, 6.24],
    gravity: "1.46",
  },
  {
    of: { glaze: "Little Tern", number: 1, name: "Little Tern" },
    firedOn: "2026-08-19",
    by: "ines",
    remark: "Clear and level, like the family's.",
    gravity: "1.49",
  },
  {
    of: { glaze: "Common Tern", number: 1, name: "Common Tern" },
    firedOn: "2026-08-19",
    by: "ines",
    remark: "Satin with slow cooling.",
    gravity: "1.48",
  },
  {
    of: proved,
    firedOn: "2026-08-22",
    by: "ines",
    remark: "As the first.",
    lab: [83.37, -5.62, 6.71],
    gravity: "1.45",
  },
  {
    of: { ...proved, name: "Slack Water, dipping bucket" },
    firedOn: "2026-09-12",
    by: "ines",
    remark: "Clear and level.",
    gravity: "1.46",
  },
  {
    of: proved,
    firedOn: "2026-10-10",
    by: "rukmini",
    remark: "Greyer and yellower. Somebody may have rinsed a brush from the iron wash in it.",
    lab: [80.64, -4.02, 9.35],
    gravity: "1.43",
  },
];

/** How far a proof tile may go, ΔE00, by the studio's own line. */
export const demoTolerance = "2";

/** Colours off the studio's instrument, by the tile's key. */
export const demoColours: readonly { tile: string; at: string; by: Who; lab: Figures }[] = [
  {
    tile: "Slack Water 3, cone 6, Loft stoneware",
    at: "2026-05-09T17:00:00Z",
    by: "ines",
    lab: [84.11, -5.93, 6.02],
  },
  {
    tile: "Slack Water 3, cone 5, Loft stoneware",
    at: "2026-05-09T17:10:00Z",
    by: "ines",
    lab: [82.26, -5.1, 7.85],
  },
  {
    tile: "Mackerel Sky 2, cone 6, Loft stoneware",
    at: "2026-05-09T17:20:00Z",
    by: "ines",
    lab: [48.9, -4.44, -19.82],
  },
  {
    tile: "Mackerel Sky 2, cone 6, Heron porcelain",
    at: "2026-05-09T17:30:00Z",
    by: "ines",
    lab: [56.3, -5.02, -17.4],
  },
];
