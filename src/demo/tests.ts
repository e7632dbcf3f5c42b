import type { Cone } from "../chem/cones.ts";
import type { TestKind, TestOutcome } from "../db/tests.ts";
import type { Who } from "./people.ts";
import type { Clay } from "./tiles.ts";

/** A figure of a leach report, as it is typed. */
export type DemoResult = {
  element: string;
  qualifier: "=" | "<";
  value: string;
  unit: string;
  detectionLimit: string;
  specimen: string;
};

export type DemoTest = {
  glaze: string;
  number: number;
  cone: Cone;
  clay: Clay;
  kind: TestKind;
  at: string;
  by: Who;
  method: string;
  outcome: TestOutcome;
  remark: string;
  laboratory: string;
  articleClass: string;
  report: string;
  results: readonly DemoResult[];
};

const invented = (method: string): string => `${method} (demo, invented)`;

const methods = {
  acid: invented("Lemon on half of the tile under film, 24 hours"),
  alkali: invented("Half in washing soda, 50 g to the litre, 80 °C, six hours"),
  dishwasher: invented("Sixty cycles at 65 °C beside a like tile on the shelf"),
  "thermal shock": invented(
    "Kettle and iced water in turn, six times, then ink; again at four weeks",
  ),
} as const;

const atHome = { laboratory: "", articleClass: "", report: "", results: [] } as const;

type Tile = Pick<DemoTest, "glaze" | "number" | "cone" | "clay">;

const passed = (
  tile: Tile,
  kind: keyof typeof methods,
  at: string,
  by: Who,
  remark: string,
): DemoTest => ({
  ...tile,
  ...atHome,
  kind,
  at,
  by,
  method: methods[kind],
  outcome: "passed",
  remark,
});

const tile = (glaze: string, number: number, cone: Cone, clay: Clay = "Loft stoneware"): Tile => ({
  glaze,
  number,
  cone,
  clay,
});

const slack6 = tile("Slack Water", 3, "6");
const slackWhite = tile("Slack Water", 3, "6", "Heron porcelain");
const little6 = tile("Little Tern", 1, "6");
const common6 = tile("Common Tern", 1, "6");

const figure = (element: string, qualifier: "=" | "<", value: string): DemoResult => ({
  element,
  qualifier,
  value,
  unit: "mg/l",
  detectionLimit: "0.02",
  specimen: "bowl 1",
});

/** What was done to tiles, glaze by glaze. All of it is made up for the demo, and says so. */
export const demoTests: readonly DemoTest[] = [
  passed(tile("Slack Water", 3, "5"), "acid", "2026-05-10T18:00:00Z", "rukmini", "No mark."),
  passed(slack6, "acid", "2026-05-10T18:10:00Z", "rukmini", "No mark under the lamp."),
  passed(slack6, "alkali", "2026-05-16T17:30:00Z", "rukmini", "Gloss the same on both halves."),
  {
    ...tile("Ebb Green", 2, "6"),
    kind: "leach",
    at: "2026-06-02T09:30:00Z",
    by: "jonah",
    method: invented("Four percent acetic acid, 24 hours at 22 °C"),
    outcome: "unclear",
    remark: "Copper came out, and the laboratory has no limit for it. It stays decorative.",
    laboratory: "Demo laboratory, invented",
    articleClass: "category 2",
    report: "Demo report 1, 29 May 2026, a bowl 40 mm deep, invented",
    results: [figure("Pb", "<", "0.02"), figure("Cd", "<", "0.02"), figure("Cu", "=", "1.4")],
  },
  passed(slack6, "thermal shock", "2026-06-07T16:00:00Z", "ines", "No line of ink anywhere."),
  passed(slackWhite, "thermal shock", "2026-06-07T16:20:00Z", "ines", "No line of ink."),
  passed(slack6, "dishwasher", "2026-07-12T18:00:00Z", "rukmini", "As bright as its twin."),
  passed(little6, "acid", "2026-06-14T17:00:00Z", "ines", "No mark."),
  passed(little6, "alkali", "2026-06-20T17:00:00Z", "ines", "No change of gloss."),
  passed(common6, "acid", "2026-06-14T17:20:00Z", "ines", "No change of colour."),
  passed(common6, "alkali", "2026-06-20T17:20:00Z", "ines", "Satin the same on both halves."),
  passed(little6, "dishwasher", "2026-08-09T18:00:00Z", "ines", "As bright as its twin."),
  passed(common6, "dishwasher", "2026-08-09T18:10:00Z", "ines", "Neither duller nor shinier."),
  {
    ...tile("Sandpiper Matt", 1, "6"),
    ...atHome,
    kind: "knife",
    at: "2026-03-09T10:00:00Z",
    by: "tam",
    method: invented("Spoon and table knife, then scouring powder"),
    outcome: "failed",
    remark: "Grey lines that do not scrub off.",
  },
];
