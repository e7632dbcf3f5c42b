import type { Cone } from "../chem/cones.ts";
import type { Step } from "../chem/programme.ts";
import type { FiringKind } from "../db/firings.ts";
import type { WitnessCone } from "../db/witness-cones.ts";
import type { Who } from "./people.ts";

/** What somebody says of a body, and when; decimals as they are typed. */
export type DemoSheet = {
  at: string;
  by: Who;
  cones: readonly [low: Cone, high: Cone];
  absorption?: string;
  expansion?: { value: string; fromCelsius: number; toCelsius: number };
  colour: string;
  about: string;
};

export type DemoBody = { name: string; sheets: readonly [DemoSheet, ...DemoSheet[]] };

/** Where every figure of the demo's bodies comes from. */
export const bodySource = "demo sheet, invented";

/** The clays of the studio. The first sheet puts a body on record, the last one counts. */
export const demoBodies: readonly DemoBody[] = [
  {
    name: "Loft stoneware",
    sheets: [
      {
        at: "2026-01-13T10:00:00Z",
        by: "ines",
        cones: ["5", "7"],
        colour: "buff",
        about: "The studio's own clay, mixed from what the net loft has always used.",
      },
      {
        at: "2026-01-20T17:30:00Z",
        by: "tam",
        cones: ["5", "7"],
        absorption: "1.8",
        expansion: { value: "6.2", fromCelsius: 20, toCelsius: 600 },
        colour: "buff",
        about:
          "The studio's own clay, mixed from what the net loft has always used. Warm under a clear glaze, with a few specks.",
      },
    ],
  },
  {
    name: "Heron porcelain",
    sheets: [
      {
        at: "2026-01-13T10:10:00Z",
        by: "ines",
        cones: ["5", "7"],
        absorption: "0.4",
        colour: "white",
        about: "For thin ware. Slumps where it is not supported at cone 7.",
      },
    ],
  },
];

export type DemoKiln = { name: string; at: string; about: string };

export const demoKilns: readonly DemoKiln[] = [
  {
    name: "Gannet",
    at: "2026-01-13T09:30:00Z",
    about: "Electric, three shelves. Cone 6 in oxidation, and the bisque. The top runs hot.",
  },
  {
    name: "Wren",
    at: "2026-01-13T09:40:00Z",
    about: "Small electric test kiln, one shelf, twelve tiles at a time. Cools fast.",
  },
];

export type DemoFiring = {
  kiln: "Gannet" | "Wren";
  kind: FiringKind;
  cone: Cone;
  startedAt: string;
  programme: readonly Step[];
  witness: readonly WitnessCone[];
  remark: string;
  by: Who;
  /** What the meter beside the kiln counted, in kWh. */
  kilowattHours: string;
};

const step = (celsiusPerHour: number, toCelsius: number, holdMinutes = 0): Step => ({
  celsiusPerHour,
  toCelsius,
  holdMinutes,
});

const stood = (cone: Cone, bendDegrees: number, place: string): WitnessCone => ({
  cone,
  bendDegrees,
  place,
});

const upToConeSix = [step(80, 120, 20), step(150, 600), step(180, 1120)];
const toConeSix = [...upToConeSix, step(60, 1222)];
const toConeFive = [step(100, 120), step(200, 1080), step(60, 1186)];

/** Firings, oldest first. Tiles name theirs by its kiln and the day that it began. */
export const demoFirings: readonly DemoFiring[] = [
  {
    kiln: "Gannet",
    kind: "bisque",
    cone: "04",
    startedAt: "2026-01-17T06:00:00Z",
    programme: [step(60, 120, 60), step(100, 600), step(150, 940), step(60, 1060)],
    witness: [
      stood("05", 150, "middle shelf"),
      stood("04", 85, "middle shelf"),
      stood("03", 5, "middle shelf"),
    ],
    remark: "Test tiles and the first mugs of the year.",
    by: "ines",
    kilowattHours: "46.5",
  },
  {
    kiln: "Wren",
    kind: "oxidation",
    cone: "5",
    startedAt: "2026-05-02T07:10:00Z",
    programme: toConeFive,
    witness: [
      stood("4", 140, "beside the tiles"),
      stood("5", 90, "beside the tiles"),
      stood("6", 15, "beside the tiles"),
    ],
    remark: "For the lower end of Slack Water.",
    by: "ines",
    kilowattHours: "7.8",
  },
  {
    kiln: "Gannet",
    kind: "oxidation",
    cone: "6",
    startedAt: "2026-05-02T08:00:00Z",
    programme: toConeSix,
    witness: [
      stood("5", 150, "middle shelf"),
      stood("6", 90, "middle shelf"),
      stood("7", 10, "middle shelf"),
      stood("6", 75, "bottom shelf"),
    ],
    remark: "Packed loosely.",
    by: "ines",
    kilowattHours: "58.2",
  },
  {
    kiln: "Wren",
    kind: "oxidation",
    cone: "5",
    startedAt: "2026-06-06T07:00:00Z",
    programme: toConeFive,
    witness: [
      stood("4", 135, "beside the tiles"),
      stood("5", 80, "beside the tiles"),
      stood("6", 5, "beside the tiles"),
    ],
    remark: "",
    by: "ines",
    kilowattHours: "7.6",
  },
  {
    kiln: "Gannet",
    kind: "oxidation",
    cone: "6",
    startedAt: "2026-06-06T08:20:00Z",
    programme: [...upToConeSix, step(60, 1215, 15), step(200, 1040, 45), step(80, 800)],
    witness: [
      stood("5", 145, "middle shelf"),
      stood("6", 95, "middle shelf"),
      stood("7", 20, "middle shelf"),
    ],
    remark: "Cooled slowly for the satin glazes.",
    by: "ines",
    kilowattHours: "66.4",
  },
  {
    kiln: "Gannet",
    kind: "oxidation",
    cone: "6",
    startedAt: "2026-08-15T08:00:00Z",
    programme: toConeSix,
    witness: [
      stood("6", 100, "middle shelf"),
      stood("7", 30, "middle shelf"),
      stood("7", 170, "top shelf, back corner"),
    ],
    remark: "The back corner ran away. Keep tiles out of it until the element is changed.",
    by: "jonah",
    kilowattHours: "59.1",
  },
];

/** How the demo's data calls a firing: by its kiln and the day that it began, in UTC. */
export const firingKey = (kiln: DemoFiring["kiln"], day: string): string => `${kiln} ${day}`;
