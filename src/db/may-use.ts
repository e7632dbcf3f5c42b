import type { BucketTrouble } from "./bucket-reports.ts";
import type { BucketIs } from "./buckets.ts";
import type { Standing } from "./standing.ts";

/** All that bears on whether members may glaze with a bucket. */
export type UseFacts = {
  is: BucketIs;
  /** That a mix was finished since it was last emptied. */
  mixed: boolean;
  /** That powders went in since it was opened, of a mix that nobody finished. */
  stirredUp: boolean;
  /** Of a revision that nobody approved, for trying it out. */
  forTest: boolean;
  standing: Pick<Standing, "is" | "for">;
  recalls: readonly { why: string }[];
  /** What moved further than an approval bears, in words. */
  moved: readonly string[];
  /** Powders of lots that nobody analysed, or of a bag that nobody could tell. */
  notThisLot: readonly string[];
  /** What nobody has answered. */
  reports: readonly { trouble: BucketTrouble; by: string; at: Date }[];
};

/** Whether members may glaze with a bucket, and what speaks against it, worst first. */
export type MayUse = {
  /** What touches food, drink or lips. */
  food: boolean;
  /** What never does. */
  decorative: boolean;
  because: string[];
};

type Against = { bars: "all" | "food" | "nothing"; says: string };

/**
 * Whether members may glaze with a bucket now: only out of an open one, and only as far as the
 * approval of what is in it holds. It says what was checked, and promises nothing of any pot.
 */
export function mayUseOf(facts: UseFacts): MayUse {
  const against = listAgainst(facts);
  const { is, for: use } = facts.standing;
  const barred = (what: Against["bars"]) => against.some(({ bars }) => bars === what);
  const decorative = is === "approved" && !barred("all");
  return {
    food: decorative && use === "functional" && !barred("food"),
    decorative,
    because: [
      ...against.map(({ says }) => says),
      ...(is === "approved" && use === "decorative" ? [decorativeOnly] : []),
    ],
  };
}

/** What is to be said of a bucket before anything else; none where nothing speaks against it. */
export const cautionsOfUse = (facts: UseFacts): string[] =>
  listAgainst(facts).map(({ says }) => says);

const decorativeOnly = "Its revision is approved as decorative only.";

/** What a bucket for trying out says wherever it is named. */
export const testBucket =
  "Test bucket: decorative only, not for food, not for members' pots until approved.";

const listAgainst = (facts: UseFacts): Against[] => [
  ...facts.recalls.map(({ why }) => barring("all", `Recalled: do not use. ${why}`)),
  ...againstState(facts),
  ...againstStanding(facts),
  ...againstContents(facts),
  ...facts.reports.map(againstReport),
];

function againstState({ is, mixed, stirredUp }: UseFacts): Against[] {
  if (is === "empty") return [barring("all", "It is empty.")];
  if (!mixed) return [barring("all", "Not mixed yet: no mix of it was finished.")];
  if (is === "hold") return [barring("all", "This bucket is on hold: do not use it.")];
  if (!stirredUp) return [];
  const says =
    "Powders went in since it was opened: do not use it until that mix is finished and proved.";
  return [barring("all", says)];
}

function againstStanding({ standing, forTest }: UseFacts): Against[] {
  const { is } = standing;
  if (is === "withdrawn")
    return [barring("all", "This bucket's recipe was withdrawn: do not use it.")];
  if (forTest) return [barring(is === "approved" ? "food" : "all", testBucket)];
  if (is === "approved") return [];
  const says =
    is === "needs another look"
      ? "This bucket's revision needs another look: do not use it until that is settled."
      : "Nobody has approved this bucket's revision: do not use it.";
  return [barring("all", says)];
}

function againstContents({ moved, notThisLot, standing }: UseFacts): Against[] {
  const far = moved.join("; ");
  const against: Against[] = [];
  if (far && standing.for !== null)
    against.push(barring("all", `What is in it is no longer what was approved: ${far}.`));
  else if (far)
    against.push(
      barring(
        "nothing",
        `What is in it is further from its recipe than an approval bears: ${far}.`,
      ),
    );
  if (notThisLot.length > 0) {
    const says = `Not this lot's analysis: ${fewOf(notThisLot)}. What is on record stands in with twice its ±, so this never counts as unchanged.`;
    against.push(barring("nothing", says));
  }
  return against;
}

/** A list says as much of each bucket as its page does, so the long ones are cut. */
const fewOf = (names: readonly string[]): string =>
  names.length > 3
    ? `${names.slice(0, 2).join(", ")} and ${names.length - 2} more`
    : names.join(", ");

const barredBy: Readonly<Record<BucketTrouble, Against["bars"]>> = {
  contaminated: "all",
  "no label": "food",
  "wrong colour": "food",
  lumpy: "nothing",
  thin: "nothing",
};

const againstReport = ({ trouble, by, at }: UseFacts["reports"][number]): Against =>
  barring(
    barredBy[trouble],
    `${by} reported on ${at.toISOString().slice(0, 10)}: ${trouble}. Nobody has said yet what was done.`,
  );

const barring = (bars: Against["bars"], says: string): Against => ({ bars, says });
