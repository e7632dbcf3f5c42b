import type { Cone } from "../chem/cones.ts";
import type { Defect } from "../db/tiles.ts";
import type { TileLook } from "./drawn-tile.ts";
import type { Who } from "./people.ts";
import { tileLooks } from "./tile-looks.ts";

export type Clay = "Loft stoneware" | "Heron porcelain";

export type DemoTile = {
  glaze: string;
  number: number;
  cone: Cone;
  clay: Clay;
  firedOn: string;
  remark: string;
  defects: readonly Defect[];
  /** Where in the kiln it stood, where somebody said. */
  place: string;
  by: Who;
  /** How its picture is drawn, or null where nobody took one. */
  look: TileLook | null;
  withdrawn?: { at: string; why: string };
};

const mistaken = {
  at: "2026-08-22T19:00:00Z",
  why: "The witness cone beside it was flat: that corner of Gannet went past cone 7.",
};

const s = "Loft stoneware";
const p = "Heron porcelain";

type Row = [
  glaze: string,
  number: number,
  cone: Cone,
  clay: Clay,
  firedOn: string,
  by: Who,
  remark: string,
  seen?: "unseen",
];

const rows: readonly Row[] = [
  [
    "Slack Water",
    1,
    "6",
    s,
    "2026-01-24",
    "rukmini",
    "Clear and even. A net of fine cracks by the end of the week.",
  ],
  [
    "Sluice Amber",
    1,
    "6",
    s,
    "2026-01-31",
    "jonah",
    "Amber, a few blisters near the thick edge.",
    "unseen",
  ],
  ["Mackerel Sky", 1, "6", s, "2026-02-08", "sefton", "Blue over brown; ran 15 mm."],
  ["Wrack Line", 1, "6", s, "2026-02-14", "jonah", "Breaks rust on the ridges."],
  ["Slack Water", 2, "6", s, "2026-02-21", "rukmini", "No cracks after seven days."],
  ["Slack Water", 2, "6", p, "2026-02-21", "rukmini", "Very clear, faintly blue in the pool."],
  ["Sandpiper Matt", 1, "6", s, "2026-02-28", "tam", "Dry matt; a spoon marks it."],
  ["Ebb Green", 1, "6", s, "2026-03-01", "jonah", "Bottle green, dark where it pooled."],
  ["Curlew", 1, "6", s, "2026-03-14", "tam", "Even grey, slightly green."],
  ["Haar", 1, "6", s, "2026-03-21", "rukmini", "Turquoise, matt, no running."],
  ["Wrack Line", 1, "5", s, "2026-03-22", "jonah", "Browner and stiffer than at 6.", "unseen"],
  ["Mackerel Sky", 2, "6", s, "2026-03-28", "sefton", "The broken blue I was after; moved 8 mm."],
  ["Mackerel Sky", 2, "6", p, "2026-03-28", "sefton", "Paler, more clouds."],
  [
    "Groyne Lichen",
    1,
    "6",
    s,
    "2026-04-04",
    "sefton",
    "Islands of 3 to 8 mm, well stuck but for two.",
  ],
  ["Ebb Green", 2, "6", s, "2026-04-11", "jonah", "Lighter, still green.", "unseen"],
  ["Ebb Green", 2, "6", p, "2026-04-11", "jonah", "Clean pale green."],
  [
    "Starling",
    1,
    "5",
    s,
    "2026-04-18",
    "jonah",
    "Wren, fan on. Bronze to black, ran into the dish.",
  ],
  ["Haar", 1, "5", p, "2026-04-25", "rukmini", "Dry and chalky: not quite melted at 5."],
  ["Slack Water", 3, "5", s, "2026-05-02", "ines", "Clear, a few tiny bubbles under a lens."],
  ["Slack Water", 3, "6", s, "2026-05-02", "ines", "Clear. No cracks at four weeks."],
  [
    "Slack Water",
    3,
    "6",
    p,
    "2026-05-09",
    "ines",
    "Clear. Iced water and the kettle in turn: no cracks.",
    "unseen",
  ],
  ["Neap Green", 1, "6", s, "2026-05-16", "sefton", "Satin sage, warmer than its parents."],
  ["Sandpiper Matt", 2, "6", s, "2026-05-23", "tam", "Satin; the spoon no longer marks it."],
  [
    "Sandpiper Matt",
    2,
    "7",
    s,
    "2026-05-30",
    "tam",
    "Smoother, a little glossier at the edge.",
    "unseen",
  ],
  ["Little Tern", 1, "5", s, "2026-06-06", "ines", "Clear; orange peel where thick."],
  ["Little Tern", 1, "6", s, "2026-06-06", "ines", "Clear and level."],
  ["Common Tern", 1, "5", s, "2026-06-06", "ines", "Glossier: Wren cools fast.", "unseen"],
  ["Common Tern", 1, "6", s, "2026-06-06", "ines", "Satin with slow cooling."],
  ["Arctic Tern", 1, "6", s, "2026-06-06", "ines", "White, covers in one coat."],
  [
    "Neap Green",
    1,
    "6",
    p,
    "2026-06-06",
    "sefton",
    "Crazed all over by the Monday: it does not fit the porcelain.",
    "unseen",
  ],
  ["Black Tern", 1, "6", p, "2026-06-13", "sefton", "Black, tea brown at the lip."],
  ["Black Tern", 1, "6", s, "2026-06-13", "ines", "Plain black."],
  ["Arctic Tern", 2, "6", s, "2026-07-18", "ines", "As white as the first."],
  ["Wrack Line", 1, "7", s, "2026-08-15", "jonah", "Ran off the foot.", "unseen"],
];

/** What went wrong, by the tile's key. */
const seen: Readonly<Record<string, readonly Defect[]>> = {
  "Slack Water 1, cone 6, Loft stoneware": ["crazing"],
  "Sluice Amber 1, cone 6, Loft stoneware": ["blistering"],
  "Mackerel Sky 1, cone 6, Loft stoneware": ["running"],
  "Groyne Lichen 1, cone 6, Loft stoneware": ["crawling"],
  "Starling 1, cone 5, Loft stoneware": ["running"],
  "Haar 1, cone 5, Heron porcelain": ["underfired"],
  "Neap Green 1, cone 6, Heron porcelain": ["crazing"],
  "Wrack Line 1, cone 7, Loft stoneware": ["running"],
};

const places: Readonly<Record<string, string>> = {
  "Wrack Line 1, cone 7, Loft stoneware": "top shelf, back corner",
};

/** How the demo's data calls a tile: "Slack Water 3, cone 6, Loft stoneware". */
export const tileKey = ({
  glaze,
  number,
  cone,
  clay,
}: Pick<DemoTile, "glaze" | "number" | "cone" | "clay">): string =>
  `${glaze} ${number}, cone ${cone}, ${clay}`;

/** Fired tiles, oldest first. Cones are by the witness cone beside the tile. */
export const demoTiles: readonly DemoTile[] = rows.map(
  ([glaze, number, cone, clay, firedOn, by, remark, unseen]) => ({
    glaze,
    number,
    cone,
    clay,
    firedOn,
    by,
    remark,
    defects: seen[tileKey({ glaze, number, cone, clay })] ?? [],
    place: places[tileKey({ glaze, number, cone, clay })] ?? "",
    look: unseen === "unseen" ? null : (tileLooks[glaze] ?? null),
    ...(glaze === "Wrack Line" && cone === "7" && { withdrawn: mistaken }),
  }),
);
