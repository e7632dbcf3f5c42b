import type { Cone } from "../chem/cones.ts";
import type { Defect } from "../db/tiles.ts";
import type { TileLook } from "./drawn-tile.ts";
import type { Who } from "./people.ts";

/** What came of a point; `look` where somebody took a picture. */
export type DemoTrialResult = {
  n: number;
  surface: string;
  defects?: readonly Defect[];
  remark: string;
  look?: TileLook;
};

type Corner = { glaze: string; number: number };

export type DemoTrial = {
  name: string;
  about: string;
  at: string;
  by: Who;
  cone: Cone;
  /** The day of the firing that its tiles stood in, in Gannet. */
  firedOn: string;
  seenAt: string;
  results: readonly DemoTrialResult[];
} & (
  | {
      kind: "ladder";
      base: Corner;
      addition: string;
      from: string;
      to: string;
      steps: number;
      spacing: "geometric";
    }
  | { kind: "triaxial"; corners: readonly [Corner, Corner, Corner]; steps: number }
);

const copper = (glaze: string, deep: string, light: string): TileLook => ({
  glaze,
  deep,
  light,
  cover: 0.85,
  surface: "gloss",
});

/** The body that all of their tiles are of. */
export const trialClay = "Loft stoneware";

/** What the studio tried out. Looks and remarks are invented, as all of the demo is. */
export const demoTrials: readonly DemoTrial[] = [
  {
    kind: "ladder",
    name: "Copper on Slack Water",
    about: "How little copper gives a green that is still clear? On Loft stoneware, two seconds.",
    base: { glaze: "Slack Water", number: 3 },
    addition: "Copper carbonate",
    from: "0.25",
    to: "4",
    steps: 4,
    spacing: "geometric",
    cone: "6",
    at: "2026-05-28T17:00:00Z",
    by: "jonah",
    firedOn: "2026-06-06",
    seenAt: "2026-06-08T18:30:00Z",
    results: [
      {
        n: 1,
        surface: "gloss, hardly tinted",
        remark: "Only where it pools.",
        look: copper("#c3d6c4", "#a5c2ab", "#dbe7d9"),
      },
      {
        n: 3,
        surface: "gloss, clear green",
        remark: "The one to keep: slip shows through.",
        look: copper("#7fb294", "#558c70", "#a9d0b6"),
      },
      {
        n: 5,
        surface: "gloss, dark with a metallic skin",
        defects: ["pinholing"],
        remark: "Too much: a skin on the top edge.",
        look: copper("#2f5e4c", "#1d3d33", "#5b8871"),
      },
    ],
  },
  {
    kind: "triaxial",
    name: "Between three of ours",
    about: "What lies between the clear, the broken blue and the rust?",
    corners: [
      { glaze: "Slack Water", number: 3 },
      { glaze: "Mackerel Sky", number: 2 },
      { glaze: "Wrack Line", number: 1 },
    ],
    steps: 4,
    cone: "6",
    at: "2026-08-08T16:00:00Z",
    by: "rukmini",
    firedOn: "2026-08-15",
    seenAt: "2026-08-17T18:00:00Z",
    results: [
      { n: 1, surface: "gloss, clear", remark: "As the recipe on the wall." },
      {
        n: 5,
        surface: "satin, grey-blue",
        remark: "Quiet. Sefton wants it on bowls.",
        look: { glaze: "#8496a3", deep: "#64788a", light: "#b3bfc7", cover: 0.9, surface: "satin" },
      },
      {
        n: 13,
        surface: "gloss, brown with blue runs",
        defects: ["running"],
        remark: "Moved 20 mm.",
      },
    ],
  },
];
