import { olderLargeRows, segerRows, selfSupportingRows } from "./cone-table-rows.ts";

/** How an end point is known. Only what was looked up may be held against anybody. */
export type HowKnown = "looked up" | "looked up in °F" | "from memory";

export type EndPoint = { celsius: number; how: HowKnown };

/** One cone of a table: its end point at each of the table's rates, null where none is held. */
export type ConeRow = { cone: string; endPoints: readonly (EndPoint | null)[] };

/** Every table held here; the current chart first. */
export const coneTableIds = ["self-supporting", "older-large", "seger-1896"] as const;

export type ConeTableId = (typeof coneTableIds)[number];

/**
 * A printed table of end points. `series` says whose cones and which edition in a few words,
 * `source` where it was printed. `rates` are heating rates over the last 100 °C, °C/h, slowest
 * first; empty where the print gives none, and each row then has one end point. Rows go from the
 * coolest cone to the hottest. `caution` is what a reader must know before trusting it.
 */
export type ConeTable = {
  readonly id: ConeTableId;
  readonly series: string;
  readonly source: string;
  readonly rates: readonly number[];
  readonly rows: readonly ConeRow[];
  readonly caution?: string;
};

/** The current chart, at three rates. Worked number: cone 6 ends at 1222 °C at 60 °C/h. */
export const selfSupporting: ConeTable = {
  id: "self-supporting",
  series: "Orton self-supporting cones",
  source:
    "Edward Orton Jr. Ceramic Foundation, Temperature Equivalents for Orton Pyrometric Cones (°C), chart C-022-14 (2016)",
  rates: [15, 60, 150],
  rows: rowsOf(selfSupportingRows),
};

/**
 * The superseded table that is still copied everywhere. Here too cone 6 ends at 1222 °C, but at
 * 150 °C/h: the two must not be mixed up.
 */
const olderLarge: ConeTable = {
  id: "older-large",
  series: "Orton large cones, older table",
  source: "Orton standard large cones, older edition, as reprinted",
  rates: [150],
  rows: rowsOf(olderLargeRows),
  caution: "This table is superseded: use it for cones that came with it.",
};

const seger: ConeTable = {
  id: "seger-1896",
  series: "Seger cones of 1896",
  source:
    "H. Hecht, Tonindustrie-Zeitung 1896, nos. 18 and 19, as abstracted in Dingler's Polytechnisches Journal 300 (1896), p. 288",
  rates: [],
  rows: rowsOf(segerRows, "SK "),
  caution:
    "Five of these end points were measured, the others were put between them, and no heating rate is given.",
};

const tables: Readonly<Record<ConeTableId, ConeTable>> = {
  "self-supporting": selfSupporting,
  "older-large": olderLarge,
  "seger-1896": seger,
};

export const coneTable = (id: ConeTableId): ConeTable => tables[id];

function rowsOf(printed: string, prefix = ""): ConeRow[] {
  return printed
    .trim()
    .split("\n")
    .map((row) => {
      const [cone = "", ...figures] = row.split(/ +/);
      return { cone: prefix + cone, endPoints: figures.map(endPointOf) };
    });
}

function endPointOf(printed: string): EndPoint | null {
  if (printed === "-") return null;
  const celsius = Number(printed.replace(/[~F]/, ""));
  if (printed.startsWith("~")) return { celsius, how: "from memory" };
  return { celsius, how: printed.endsWith("F") ? "looked up in °F" : "looked up" };
}

/** °C in °F. Worked number: 1222 °C is 2231.6 °F. */
export const toFahrenheit = (celsius: number): number => (celsius * 9) / 5 + 32;

/** °F in °C. Worked number: 2232 °F is 1222.2 °C. */
export const toCelsius = (fahrenheit: number): number => ((fahrenheit - 32) * 5) / 9;
