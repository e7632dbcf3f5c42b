import { type DegreeUnit, degreesIn, sentenceIn, spanIn } from "../../src/chem/degrees.ts";
import { pageReading } from "./reading.ts";

/** "°C" or "°F", as the reader takes temperatures. */
export const degreeSign = (): string => `°${pageReading().temperature}`;

/** A temperature to the whole degree, without its sign: 1222, or 2232. */
export const wholeDegrees = (celsius: number): string =>
  whole(degreesIn(celsius, pageReading().temperature));

/** A rate or a difference to the whole degree, without its sign: 60, or 108. */
export const wholeSpan = (kelvins: number): string =>
  whole(spanIn(kelvins, pageReading().temperature));

/** "1222 °C", or "2232 °F"; of several temperatures "1196 to 1222 °C". */
export const degrees = (...celsius: readonly number[]): string =>
  `${[...new Set(celsius.map(wholeDegrees))].join(" to ")} ${degreeSign()}`;

/** A difference, a ± or a rate: "60 °C", or "108 °F". */
export const degreesApart = (kelvins: number): string => `${wholeSpan(kelvins)} ${degreeSign()}`;

/** The reader's unit first: "1222 °C (2232 °F)", or "2232 °F (1222 °C)". */
export const degreesInBoth = (celsius: number): string => {
  const [first, other] = bothUnits();
  return `${whole(degreesIn(celsius, first))} °${first} (${whole(degreesIn(celsius, other))} °${other})`;
};

/** A rate, the reader's unit first: "60 °C an hour (108 °F an hour)". */
export const rateInBoth = (kelvins: number): string => {
  const [first, other] = bothUnits();
  const said = (unit: DegreeUnit) => `${whole(spanIn(kelvins, unit))} °${unit} an hour`;
  return `${said(first)} (${said(other)})`;
};

/** The reader's unit, and the other one. */
export const bothUnits = (): readonly [DegreeUnit, DegreeUnit] =>
  pageReading().temperature === "C" ? ["C", "F"] : ["F", "C"];

/** A sentence that was written in °C, in the reader's unit. */
export const inDegrees = (sentence: string): string =>
  sentenceIn(sentence, pageReading().temperature);

/** Whether the reader wants temperatures before cones. */
export const heatFirst = (): boolean => pageReading().heat === "temperature";

const whole = (value: number): string => {
  const rounded = Math.round(value);
  return rounded < 0 ? `−${-rounded}` : String(Math.abs(rounded));
};
