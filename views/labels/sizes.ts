/**
 * The papers that labels are printed on, by their measurements in millimetres; labels.css has a class
 * and a page for each. `room` says how many letters of cautions there is room for; `leaves` how many of
 * what may be left to the code are left to it, in the order of `leavable`.
 */
export const labelSizes = [
  {
    id: "a4",
    says: "A4, one label on the page",
    ...{ columns: 1, rows: 1, widthMm: 210, heightMm: 297, room: 900, leaves: 0 },
  },
  {
    id: "letter",
    says: "Letter, one label on the page",
    ...{ columns: 1, rows: 1, widthMm: 215.9, heightMm: 279.4, room: 900, leaves: 0 },
  },
  {
    id: "a4-2x4",
    says: "A4 sheet of 2 × 4, each 99.1 × 67.7 mm",
    ...{ columns: 2, rows: 4, widthMm: 99.1, heightMm: 67.7, room: 0, leaves: 2 },
  },
  {
    id: "letter-2x5",
    says: "Letter sheet of 2 × 5, each 4 × 2 in",
    ...{ columns: 2, rows: 5, widthMm: 101.6, heightMm: 50.8, room: 0, leaves: 4 },
  },
  {
    id: "a4-2x7",
    says: "A4 sheet of 2 × 7, each 99.1 × 38.1 mm",
    ...{ columns: 2, rows: 7, widthMm: 99.1, heightMm: 38.1, room: 0, leaves: 4 },
  },
  {
    id: "a4-3x7",
    says: "A4 sheet of 3 × 7, each 63.5 × 38.1 mm",
    ...{ columns: 3, rows: 7, widthMm: 63.5, heightMm: 38.1, room: 0, leaves: 5 },
  },
] as const;

export type LabelSize = (typeof labelSizes)[number];

/**
 * What a small label leaves to the code, first what goes first. Name, mark with where it does not
 * belong, cone, date, recipe with its revision, signal word, what dissolves and the code are on all.
 */
export const leavable = [
  "hazard statements",
  "all of what the mark rules out",
  "whom to ask",
  "hazard names",
  "safety data sheets",
] as const;

export type Leavable = (typeof leavable)[number];

export const leftOut = ({ leaves }: LabelSize): readonly Leavable[] => leavable.slice(0, leaves);

export const placesOf = ({ columns, rows }: LabelSize): number => columns * rows;
