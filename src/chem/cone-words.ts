import type { Climb } from "./cone-climb.ts";
import type { EndPointAtRate } from "./cone-end-point.ts";
import type { ConeEstimate } from "./cone-estimate.ts";
import type { ConeTable } from "./cone-tables.ts";
import { type DegreeUnit, degreesIn, spanIn } from "./degrees.ts";

/** What an estimate is said of: all of it but its readings. */
export type Told = {
  estimate: Omit<ConeEstimate, "says">;
  nearest: EndPointAtRate;
  climb: Climb;
  held: boolean;
  table: ConeTable;
  dropped: number;
  reordered: boolean;
};

/**
 * An estimate in sentences: the cone and its series, its bounds, what it does not know, its table.
 *
 * @param unit that its temperatures, rates and ± are said in, to the whole degree.
 */
export function sayEstimate(told: Told, unit: DegreeUnit = "C"): string {
  const { table } = told;
  const say: Say = {
    heat: (celsius) => `${whole(degreesIn(celsius, unit))} °${unit}`,
    span: (kelvins) => `${whole(spanIn(kelvins, unit))} °${unit}`,
    rate: (kelvins) =>
      kelvins < 10
        ? `${spanIn(kelvins, unit).toFixed(1)} °${unit} an hour`
        : `${whole(spanIn(kelvins, unit))} °${unit} an hour`,
  };
  return [
    sayCone(told, say),
    sayBounds(told, say),
    ...saidOfHold(told),
    ...saidOfFigures(told, say),
    ...saidOfReadings(told, say),
    ...(table.caution ? [table.caution] : []),
    "Believe the witness cone beside the ware.",
    `Table: ${table.source}.`,
  ].join(" ");
}

/** How a temperature, a difference and a rate are said, in one unit. */
type Say = Record<"heat" | "span" | "rate", (figure: number) => string>;

const whole = (value: number): string => String(Math.round(value));

function sayCone({ estimate, nearest, table }: Told, say: Say): string {
  const { cone, peakCelsius, rateCelsiusPerHour } = estimate;
  const rate = say.rate(rateCelsiusPerHour);
  const peak = `the peak was ${say.heat(peakCelsius)}`;
  const ends = `ends near ${say.heat(nearest.celsius)}`;
  const climbed = `${peak}, after climbing at ${rate}`;
  if (cone === null) {
    const [beyond, end] =
      peakCelsius < nearest.celsius ? ["Below", "coolest"] : ["Above", "hottest"];
    return `${beyond} every cone of this table: the ${end}, cone ${nearest.cone} (${table.series}), ${ends}, and ${climbed}.`;
  }
  const near = `Near cone ${cone} (${table.series}):`;
  if (table.rates.length === 0) return `${near} it ${ends}, and ${climbed}.`;
  return `${near} heated at ${rate} it ${ends}, and ${peak}.`;
}

function sayBounds({ estimate: { lower, upper, plusMinus }, held }: Told, say: Say): string {
  const down = lower === null ? "no cone surely went down" : `cone ${lower} went down`;
  if (held)
    return `With ± ${say.span(plusMinus)}, ${down}${lower === null ? "" : " at the least"}.`;
  if (upper === null) return `With ± ${say.span(plusMinus)}, ${down}, and the table ends there.`;
  return `With ± ${say.span(plusMinus)}, ${down} and cone ${upper} did not.`;
}

function saidOfHold({ climb, held }: Told): string[] {
  if (held) {
    return [
      `The kiln stayed near the peak for ${whole(climb.heldMinutes)} minutes: a hold adds heat work which this does not count, so it may have been a hotter cone, and no upper one is given.`,
    ];
  }
  return climb.endsNearPeak
    ? ["The readings end near the peak: a hold after them is not counted."]
    : [];
}

function saidOfFigures(
  { estimate: { plusMinus }, nearest, table: { rates } }: Told,
  say: Say,
): string[] {
  const said: string[] = [];
  if (nearest.outside && rates.length > 0) {
    said.push(
      `For cone ${nearest.cone} this table has nothing as fast or as slow: its nearest rate was taken, and the ± is ${say.span(plusMinus)} instead of ${say.span(10)}.`,
    );
  }
  if (nearest.remembered)
    said.push("A figure used here is from memory and was not seen in print: take it softly.");
  return said;
}

function saidOfReadings({ dropped, reordered }: Told, say: Say): string[] {
  const said: string[] = [];
  if (dropped > 0) {
    const were = dropped === 1 ? "1 reading was" : `${dropped} readings were`;
    said.push(
      `${were} left out for standing more than ${say.span(20)} from both neighbours; if that was real, log more often.`,
    );
  }
  if (reordered) said.push("The readings were not in order of time and were put so.");
  return said;
}

export const sayDoubled = ({
  minutes,
  celsius: [one, other],
}: {
  minutes: number;
  celsius: readonly [number, number];
}): string =>
  `Minute ${minutes} has two temperatures, ${one} and ${other} °C. Keep the right one, or give parts of a minute, such as 12.5.`;

export const sayTooFew = (fewest: number): string =>
  `At least ${fewest} readings are needed, from 100 °C below the peak on.`;

export const sayShortClimb =
  "The readings do not climb 100 °C to their peak, so there is no heating rate to go by. Begin earlier in the firing.";
