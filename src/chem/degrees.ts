import { toFahrenheit } from "./cone-tables.ts";

export type DegreeUnit = "C" | "F";

/** A temperature in °C in a reader's unit, unrounded. Worked number: 1222 °C is 2231.6 °F. */
export const degreesIn = (celsius: number, unit: DegreeUnit): number =>
  unit === "C" ? celsius : toFahrenheit(celsius);

/**
 * A difference, a ± or a rate in degrees Celsius in a reader's unit, unrounded: the zeros of the two
 * scales have no part in it. Worked number: 60 °C an hour are 108 °F an hour.
 */
export const spanIn = (kelvins: number, unit: DegreeUnit): number =>
  unit === "C" ? kelvins : (kelvins * 9) / 5;

/**
 * A sentence of ours with its temperatures in a reader's unit, to the whole degree. A figure before
 * “an hour”, “/h” or “apart”, or behind ±, is a difference; every other one is a temperature.
 *
 * Worked number: “near 1222 °C at 60 °C/h” is “near 2232 °F at 108 °F/h”.
 */
export const sentenceIn = (sentence: string, unit: DegreeUnit): string =>
  unit === "C"
    ? sentence
    : sentence.replace(
        /(± )?(\d+(?:\.\d+)?) °C( an hour|\/h| apart)?/g,
        (_, sign = "", figure: string, of = "") => {
          const turned = sign || of ? spanIn(Number(figure), "F") : degreesIn(Number(figure), "F");
          return `${sign}${Math.round(turned)} °F${of}`;
        },
      );
