import type { Use } from "../chem/chemistry.ts";
import type { Verdict } from "../db/reviews.ts";
import type { Who } from "./people.ts";

type Judged = { glaze: string; number: number; at: string; by: Who };

/** What reviewers put on record, oldest first. */
export type DemoReview = Judged & { verdict: Verdict; for: Use; reasons: string };

export const demoReviews: readonly DemoReview[] = [
  {
    glaze: "Sandpiper Matt",
    number: 1,
    at: "2026-03-10T09:30:00Z",
    by: "ines",
    verdict: "remark",
    for: "functional",
    reasons:
      "Tam's knife leaves grey lines that do not scrub off. A little more boron should close the surface; try that before anybody eats from it.",
  },
  {
    glaze: "Haar",
    number: 1,
    at: "2026-03-24T10:00:00Z",
    by: "ines",
    verdict: "approve",
    for: "decorative",
    reasons: "Barium well over what I would have near food. Lovely on the outside of a vase.",
  },
  {
    glaze: "Groyne Lichen",
    number: 1,
    at: "2026-04-22T17:10:00Z",
    by: "tam",
    verdict: "approve",
    for: "decorative",
    reasons: "It crawls on purpose. For sculpture, and nowhere a sponge has to get at it.",
  },
  {
    glaze: "Slack Water",
    number: 3,
    at: "2026-07-15T17:00:00Z",
    by: "tam",
    verdict: "approve",
    for: "functional",
    reasons:
      "Witness cones 5 and 6 down beside the tiles, nothing crazed on either body since April, and lemon, soda and dishwasher left no mark.",
  },
  {
    glaze: "Little Tern",
    number: 1,
    at: "2026-08-12T16:30:00Z",
    by: "tam",
    verdict: "approve",
    for: "functional",
    reasons: "Sound at both cones, and the tests hold. Keep it to two seconds.",
  },
  {
    glaze: "Common Tern",
    number: 1,
    at: "2026-08-12T16:45:00Z",
    by: "tam",
    verdict: "approve",
    for: "functional",
    reasons: "Satin, not dry: the knife leaves nothing. Fired slow in Gannet it stays so.",
  },
];

/** Revisions that their owners asked the reviewers to look at. */
export const demoRequests: readonly (Judged & { for: Use })[] = [
  { glaze: "Mackerel Sky", number: 2, at: "2026-04-02T18:00:00Z", by: "sefton", for: "functional" },
  { glaze: "Wrack Line", number: 1, at: "2026-09-01T19:00:00Z", by: "jonah", for: "functional" },
];

/** Shared buckets, each of the revision on its label. */
export const demoBuckets: readonly (Judged & {
  name: string;
  litres: string;
  /** Of a revision that nobody has approved. */
  forTest?: true;
})[] = [
  {
    glaze: "Slack Water",
    number: 3,
    at: "2026-07-18T09:00:00Z",
    by: "ines",
    name: "Slack Water, big tub",
    litres: "20",
  },
  {
    glaze: "Little Tern",
    number: 1,
    at: "2026-08-14T09:00:00Z",
    by: "ines",
    name: "Little Tern",
    litres: "12",
  },
  {
    glaze: "Common Tern",
    number: 1,
    at: "2026-08-14T09:20:00Z",
    by: "ines",
    name: "Common Tern",
    litres: "12",
  },
  {
    glaze: "Slack Water",
    number: 3,
    at: "2026-09-05T10:00:00Z",
    by: "ines",
    name: "Slack Water, dipping bucket",
    litres: "8",
  },
  {
    glaze: "Mackerel Sky",
    number: 2,
    at: "2026-09-20T10:00:00Z",
    by: "ines",
    name: "Mackerel Sky, to try out",
    litres: "2",
    forTest: true,
  },
  {
    glaze: "Little Tern",
    number: 1,
    at: "2026-10-17T09:40:00Z",
    by: "ines",
    name: "Little Tern, spare pail",
    litres: "4",
  },
];
