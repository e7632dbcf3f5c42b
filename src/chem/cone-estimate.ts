import { type Climb, climbOf } from "./cone-climb.ts";
import { type EndPointAtRate, endPointsAt } from "./cone-end-point.ts";
import { type Columns, cleaned, type Reading, withoutSpikes } from "./cone-readings.ts";
import { type ConeTable, selfSupporting } from "./cone-tables.ts";
import { sayDoubled, sayEstimate, sayShortClimb, sayTooFew, type Told } from "./cone-words.ts";

export type { Columns, Reading } from "./cone-readings.ts";

/**
 * Temperatures in °C, unrounded. `cone` is the one whose end point is nearest to the peak, null
 * where the peak lies beyond every cone of the table by more than the ±. `equivalentCelsius` is
 * that cone's end point at this rate. `lower` is the hottest cone that ends at least the ± below
 * the peak, so that it went down; `upper` the coolest that ends at least the ± above it. Either is
 * null past the end of the table, and `upper` after a hold.
 */
export type ConeEstimate = {
  cone: string | null;
  lower: string | null;
  upper: string | null;
  peakCelsius: number;
  rateCelsiusPerHour: number;
  equivalentCelsius: number | null;
  plusMinus: number;
  says: string;
};

/**
 * `told` is what `sayEstimate` says it from: the `climb` that it rests on, and `held` where the kiln
 * stayed near the peak too long to say.
 */
export type ConeEstimation =
  | { kind: "estimate"; estimate: ConeEstimate; told: Told }
  | { kind: "doubled" | "too-few" | "short-climb"; says: string };

/** The most readings taken from whoever asks, of which nothing is stored: a day's log of one every five seconds. */
export const mostReadings = 20_000;

const fewest = 3;
const plusMinusCelsius = 10;
const longestPause = 5;

/**
 * Which cone a firing's readings came to. Only a witness cone is evidence of one.
 *
 * The readings may come in any order. The peak, the rate of the last 100 °C and the hold are
 * `climbOf`'s; end points at that rate are `endPointsAt`'s. The ± is 10 °C, and 20 °C where the
 * table holds nothing for so fast or slow a firing (common practice, no source). After more than
 * five minutes near the peak `upper` is null: a hold adds heat work which this does not count.
 *
 * @returns `estimate`; `doubled` where one minute has two temperatures; `too-few` under three
 *   readings; `short-climb` where they do not climb 100 °C to the peak.
 *
 * Worked number: 60 °C/h to 1222 °C, self-supporting: cone 6, lower 5, upper 7. At 150 °C/h the
 * same peak is cone 5; in the older table, made for 150 °C/h, it is cone 6.
 */
export function coneEstimate(
  given: readonly Reading[],
  table: ConeTable = selfSupporting,
): ConeEstimation {
  const clean = cleaned(given);
  if (clean.kind === "doubled") return { kind: "doubled", says: sayDoubled(clean) };
  return estimateOf(clean, table);
}

/**
 * The same for a log on record, of any length, which is in order of time without doubled moments.
 * It reads the columns as they are: nothing is thinned out first, so every reading counts.
 */
export const coneEstimateOfLog = (
  log: Columns,
  table: ConeTable = selfSupporting,
): ConeEstimation => estimateOf({ ...withoutSpikes(log), reordered: false }, table);

type Clean = { readings: Columns; dropped: number; reordered: boolean };

function estimateOf(clean: Clean, table: ConeTable): ConeEstimation {
  if (clean.readings.minutes.length < fewest) return { kind: "too-few", says: sayTooFew(fewest) };
  const climb = climbOf(clean.readings);
  if (!climb) return { kind: "short-climb", says: sayShortClimb };
  const judged = judge(climb, endPointsAt(table, climb.rateCelsiusPerHour));
  const { nearest, cone, lower, upper, plusMinus, held } = judged;
  const estimate = {
    cone: cone?.cone ?? null,
    lower: lower?.cone ?? null,
    upper: upper?.cone ?? null,
    peakCelsius: climb.peakCelsius,
    rateCelsiusPerHour: climb.rateCelsiusPerHour,
    equivalentCelsius: cone?.celsius ?? null,
    plusMinus,
  };
  const { dropped, reordered } = clean;
  const told = { estimate, nearest, climb, held, table, dropped, reordered };
  return { kind: "estimate", estimate: { ...estimate, says: sayEstimate(told) }, told };
}

function judge({ peakCelsius, heldMinutes }: Climb, endPoints: readonly EndPointAtRate[]) {
  const off = ({ celsius }: EndPointAtRate) => Math.abs(celsius - peakCelsius);
  const nearest = endPoints.reduce((best, each) => (off(each) < off(best) ? each : best));
  const plusMinus = plusMinusCelsius * (nearest.outside ? 2 : 1);
  const held = heldMinutes > longestPause;
  const within =
    off(nearest) <= plusMinus ||
    (peakCelsius >= (endPoints[0]?.celsius ?? 0) &&
      peakCelsius <= (endPoints.at(-1)?.celsius ?? 0));
  return {
    nearest,
    cone: within ? nearest : undefined,
    lower: endPoints.findLast(({ celsius }) => celsius <= peakCelsius - plusMinus),
    upper: held ? undefined : endPoints.find(({ celsius }) => celsius >= peakCelsius + plusMinus),
    plusMinus,
    held,
  };
}
