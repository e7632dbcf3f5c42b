import type { GivenSheet } from "../db/data-sheets.ts";
import type { Who } from "./people.ts";

const source = "Invented for the demo: no sheet of any real powder. Read your supplier's";

/** What stands in for the suppliers' sheets of the two powders that are themselves invented. */
export const demoSheets: readonly { powder: string; sheet: GivenSheet }[] = [
  {
    powder: "Loft frit B",
    sheet: {
      signal: "warning",
      statements: [
        "Demo statement: dust of it irritates the eyes.",
        "Demo statement: part of it dissolves when it lies in water for long.",
      ],
      precautions: ["Demo precaution: wear eye protection when the bag is opened."],
      issuedOn: "2026-01-12",
      source,
    },
  },
  {
    powder: "Loft stain coral",
    sheet: {
      signal: "danger",
      statements: ["Demo statement: harmful when swallowed or breathed in."],
      precautions: [
        "Demo precaution: weigh it with gloves and a fitted respirator.",
        "Demo precaution: keep it away from children.",
      ],
      issuedOn: null,
      source,
    },
  },
];

type DemoUse = { bucket: string; at: string; by: Who; what: string };

/** Who glazed with the shared buckets, and what, where they said so. */
export const demoUses: readonly DemoUse[] = [
  {
    ...{ bucket: "Slack Water, big tub", at: "2026-09-19T14:00:00Z", by: "marta" },
    what: "Four mugs, the first of mine",
  },
  {
    ...{ bucket: "Slack Water, big tub", at: "2026-08-29T11:20:00Z", by: "jonah" },
    what: "Soup bowls for the market",
  },
  { bucket: "Slack Water, big tub", at: "2026-10-10T15:45:00Z", by: "sefton", what: "" },
  {
    bucket: "Little Tern",
    at: "2026-09-06T16:30:00Z",
    by: "marta",
    what: "Two tall jars, outside",
  },
];
