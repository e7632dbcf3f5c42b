/** A body for functional ware absorbs less than this, percent of its weight. Common practice, no source. */
export const mostAbsorption = 3;

/** Defects that keep a tile from counting for functional ware. Common practice, no source. */
export const unsoundDefects: readonly string[] = [
  "crazing",
  "shivering",
  "blistering",
  "underfired",
];

/** Tests that functional ware has to pass, beside a leach report where one is asked for. Common practice, no source. */
export const testsForFunctional = ["acid", "alkali", "dishwasher"] as const;
