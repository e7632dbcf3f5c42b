import type { Who } from "./people.ts";

/** A batch that was weighed into a bucket of the demo. */
export type DemoMix = {
  bucket: string;
  at: string;
  by: Who;
  /** What the bucket was to hold, by the litre and its gravity. */
  litres: string;
  gravity: string;
  /** Who weighed, in turns. */
  weighed: readonly Who[];
  /** How many lines went in; all of them where nothing is said. */
  lines?: number;
  /** Of the last line that went in, where it was not what the sheet says. */
  timesTooMuch?: string;
  /** When it was mixed, and when and why the bucket was opened: after its proof tile, but for a test. */
  finished?: { at: string; proved: { at: string; why: string } };
};

/** Some that were finished, and one that waits on a shelf with too much of its second powder in. */
export const demoMixes: readonly DemoMix[] = [
  {
    ...{ bucket: "Slack Water, big tub", at: "2026-07-18T09:10:00Z", by: "ines" },
    ...{ litres: "20", gravity: "1.46", weighed: ["ines", "rukmini"] },
    finished: {
      at: "2026-07-18T09:55:00Z",
      proved: { at: "2026-07-25T19:30:00Z", why: "The first proof tile is clear and level." },
    },
  },
  {
    ...{ bucket: "Little Tern", at: "2026-08-14T09:40:00Z", by: "ines" },
    ...{ litres: "12", gravity: "1.49", weighed: ["jonah"] },
    finished: {
      at: "2026-08-14T10:35:00Z",
      proved: { at: "2026-08-20T08:30:00Z", why: "Its proof tile is like the family's." },
    },
  },
  {
    ...{ bucket: "Common Tern", at: "2026-08-14T11:00:00Z", by: "ines" },
    ...{ litres: "12", gravity: "1.48", weighed: ["jonah", "ines"] },
    finished: {
      at: "2026-08-14T11:50:00Z",
      proved: { at: "2026-08-20T08:40:00Z", why: "Satin, as on the tiles of June." },
    },
  },
  {
    ...{ bucket: "Slack Water, dipping bucket", at: "2026-09-05T10:10:00Z", by: "ines" },
    ...{ litres: "8", gravity: "1.46", weighed: ["jonah"] },
    finished: {
      at: "2026-09-05T10:50:00Z",
      proved: { at: "2026-09-13T09:00:00Z", why: "Its proof tile is clear and level." },
    },
  },
  {
    ...{ bucket: "Mackerel Sky, to try out", at: "2026-09-20T10:10:00Z", by: "ines" },
    ...{ litres: "2", gravity: "1.45", weighed: ["sefton"] },
    finished: {
      at: "2026-09-20T10:50:00Z",
      proved: { at: "2026-09-20T11:00:00Z", why: "For the tiles that its review waits for." },
    },
  },
  {
    ...{ bucket: "Little Tern, spare pail", at: "2026-10-17T10:00:00Z", by: "ines" },
    ...{ litres: "3", gravity: "1.49", weighed: ["rukmini", "marta"] },
    lines: 2,
    timesTooMuch: "1.04",
  },
];
