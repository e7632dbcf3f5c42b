import type { Climb } from "./cone-climb.ts";
import type { EndPointAtRate } from "./cone-end-point.ts";
import type { ConeEstimate } from "./cone-estimate.ts";
import type { ConeTable } from "./cone-tables.ts";

type Told = {
  estimate: Omit<ConeEstimate, "says">;
  nearest: EndPointAtRate;
  climb: Climb;
  held: boolean;
  table: ConeTable;
  dropped: number;
  reordered: boolean;
};

/** An estimate in sentences: the cone and its series, its bounds, what it does not know, its table. */
export function sayEstimate(told: Told): string {
  const { table } = told;
  return [
    sayCone(told),
    sayBounds(told),
    ...saidOfHold(told),
    ...saidOfFigures(told),
    ...saidOfReadings(told),
    ...(table.caution ? [table.caution] : []),
    "Believe the witness cone beside the ware.",
    `Table: ${table.source}.`,
  ].join(" ");
}

const whole = (value: number): string => String(Math.round(value));

function sayCone({ estimate, nearest, table }: Told): string {
  const { cone, peakCelsius, rateCelsiusPerHour } = estimate;
  const pace = rateCelsiusPerHour < 10 ? rateCelsiusPerHour.toFixed(1) : whole(rateCelsiusPerHour);
  const rate = `${pace} °C an hour`;
  const peak = `the peak was ${whole(peakCelsius)} °C`;
  const ends = `ends near ${whole(nearest.celsius)} °C`;
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

function sayBounds({ estimate: { lower, upper, plusMinus }, held }: Told): string {
  const down = lower === null ? "no cone surely went down" : `cone ${lower} went down`;
  if (held) return `With ± ${plusMinus} °C, ${down}${lower === null ? "" : " at the least"}.`;
  if (upper === null) return `With ± ${plusMinus} °C, ${down}, and the table ends there.`;
  return `With ± ${plusMinus} °C, ${down} and cone ${upper} did not.`;
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

function saidOfFigures({ estimate: { plusMinus }, nearest, table: { rates } }: Told): string[] {
  const said: string[] = [];
  if (nearest.outside && rates.length > 0) {
    said.push(
      `For cone ${nearest.cone} this table has nothing as fast or as slow: its nearest rate was taken, and the ± is ${plusMinus} °C instead of 10.`,
    );
  }
  if (nearest.remembered)
    said.push("A figure used here is from memory and was not seen in print: take it softly.");
  return said;
}

function saidOfReadings({ dropped, reordered }: Told): string[] {
  const said: string[] = [];
  if (dropped > 0) {
    const were = dropped === 1 ? "1 reading was" : `${dropped} readings were`;
    said.push(
      `${were} left out for standing more than 20 °C from both neighbours; if that was real, log more often.`,
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
