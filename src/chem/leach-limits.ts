/** Lead and cadmium: no rule held here has a limit on what comes out of pottery for any other element. */
export type LimitedElement = "Pb" | "Cd";

/**
 * How a rule counts specimens. `any of six`: none of six may be over. `mean of six`: the mean of six
 * counts. `each`: none may be over, but one that is by half at most is forgiven where at least three
 * further like articles keep to the limit on average and none of them is over by more than half.
 * `not held`: the rule's way was not seen in print.
 */
export type Aggregate = "any of six" | "mean of six" | "each" | "not held";

export type HowKnown = "looked up" | "from memory";

/** One limit on what comes out of an article, as its rule prints it. */
export type LeachLimit = {
  jurisdiction: string;
  /** The class of article that it is for, in the rule's words. */
  articleClass: string;
  /** How deep or large such an article is, as printed; empty where nothing was seen. */
  bounds: string;
  element: LimitedElement;
  /** In `unit`, as printed. */
  value: string;
  unit: "mg/l" | "µg/ml" | "mg/dm²" | "ppm";
  aggregate: Aggregate;
  aggregateHow: HowKnown;
  source: string;
  edition: string;
  how: HowKnown;
};

export type Jurisdiction = { id: string; name: string; country: string };

/** Whose limits are held here. A studio chooses among them; none holds unless it does. */
export const jurisdictions: readonly Jurisdiction[] = [
  { id: "eu", name: "European Union", country: "the European Union" },
  { id: "us-fda", name: "US Food and Drug Administration", country: "the United States" },
  { id: "us-ca", name: "California, settlement of 1993", country: "California, United States" },
  {
    id: "iso-6486",
    name: "ISO 6486-2",
    country: "no country of itself: a standard that a law may name",
  },
  {
    id: "iso-8391",
    name: "ISO 8391-2, cookware, boiling",
    country: "no country of itself: a standard that a law may name",
  },
];

type Row = [
  articleClass: string,
  bounds: string,
  element: LimitedElement,
  value: string,
  more?: Partial<Pick<LeachLimit, "unit" | "aggregate" | "aggregateHow" | "how">>,
];

type Table = Omit<LeachLimit, "articleClass" | "bounds" | "element" | "value"> & {
  rows: readonly Row[];
};

const area = { unit: "mg/dm²" } as const;
const mean = { aggregate: "mean of six" } as const;
const recalled = { how: "from memory" } as const;

const upTo25 = "internal depth up to 25 mm";
const over25 = "internal depth over 25 mm";
const small = `${over25}, under 1.1 l`;
const large = `${over25}, 1.1 l or more`;

const eu1 = "cannot be filled, or internal depth up to 25 mm";
const eu2 = "all other articles that can be filled";
const eu3 = "cooking ware; packaging and storage vessels over 3 l";

const tables: readonly Table[] = [
  {
    jurisdiction: "eu",
    source: "Council Directive 84/500/EEC, Art. 2(4) and 2(5)",
    edition: "as amended by 2005/31/EC",
    unit: "mg/l",
    aggregate: "each",
    aggregateHow: "looked up",
    how: "looked up",
    rows: [
      ["category 1", eu1, "Pb", "0.8", area],
      ["category 1", eu1, "Cd", "0.07", area],
      ["category 2", eu2, "Pb", "4.0"],
      ["category 2", eu2, "Cd", "0.3"],
      ["category 3", eu3, "Pb", "1.5"],
      ["category 3", eu3, "Cd", "0.1"],
    ],
  },
  {
    jurisdiction: "us-fda",
    source: "FDA Compliance Policy Guide Sec. 545.400",
    edition: "7117.06",
    unit: "µg/ml",
    aggregate: "any of six",
    aggregateHow: "looked up",
    how: "looked up",
    rows: [
      ["flatware", upTo25, "Cd", "0.5", mean],
      ["small hollowware", small, "Cd", "0.5"],
      ["large hollowware", large, "Cd", "0.25"],
    ],
  },
  {
    jurisdiction: "us-fda",
    source: "FDA Compliance Policy Guide Sec. 545.450, by a state rule that repeats it",
    edition: "7117.07",
    unit: "µg/ml",
    aggregate: "any of six",
    aggregateHow: "from memory",
    how: "looked up",
    rows: [
      ["flatware", upTo25, "Pb", "3.0", mean],
      ["small hollowware other than cups and mugs", small, "Pb", "2.0"],
      ["large hollowware other than pitchers", large, "Pb", "1.0"],
      ["cups and mugs", "", "Pb", "0.5"],
      ["pitchers", "creamers are not counted among them", "Pb", "0.5"],
    ],
  },
  {
    jurisdiction: "us-ca",
    source: "consent judgment on lead in tableware under Proposition 65",
    edition: "1993",
    unit: "ppm",
    aggregate: "not held",
    aggregateHow: "looked up",
    how: "looked up",
    rows: [
      ["flatware", "", "Pb", "0.226"],
      ["hollowware and all other tableware", "", "Pb", "0.1"],
    ],
  },
  {
    jurisdiction: "iso-6486",
    source: "ISO 6486-2, Table 1",
    edition: "1999",
    unit: "mg/l",
    aggregate: "not held",
    aggregateHow: "looked up",
    how: "looked up",
    rows: [
      ["flatware", "", "Pb", "0.8", area],
      ["flatware", "", "Cd", "0.07", area],
      ["small hollowware", "", "Pb", "2.0"],
      ["small hollowware", "", "Cd", "0.5"],
      ["large hollowware", "", "Pb", "1.0"],
      ["large hollowware", "", "Cd", "0.25"],
      ["storage hollowware", "", "Pb", "0.5", recalled],
      ["storage hollowware", "", "Cd", "0.25", recalled],
      ["cups and mugs", "", "Pb", "0.5", recalled],
      ["cups and mugs", "", "Cd", "0.25", recalled],
      ["cooking ware", "", "Pb", "0.5", recalled],
      ["cooking ware", "", "Cd", "0.05", recalled],
    ],
  },
  {
    jurisdiction: "iso-8391",
    source: "ISO 8391-2",
    edition: "1986",
    unit: "mg/l",
    aggregate: "not held",
    aggregateHow: "looked up",
    how: "looked up",
    rows: [
      ["cookware, boiling test", "", "Pb", "5"],
      ["cookware, boiling test", "", "Cd", "0.5"],
    ],
  },
];

/**
 * Limits that rules print for lead and cadmium out of pottery. Figures for drinking water, for the air
 * of a workshop or for a day's dose are other quantities and are never among them.
 *
 * Sources beside each table, looked up in 2026 unless a row says from memory.
 */
export const leachLimits: readonly LeachLimit[] = tables.flatMap(({ rows, ...table }) =>
  rows.map(([articleClass, bounds, element, value, more]) => ({
    ...table,
    articleClass,
    bounds,
    element,
    value,
    ...more,
  })),
);

/** The class of an article as a report may name it, with what is printed of it. */
export type ArticleClass = { name: string; says: string };

/** Every class that some rule prints, once, to choose from. */
export const articleClasses: readonly ArticleClass[] = [
  ...new Set(leachLimits.map(({ articleClass }) => articleClass)),
].map((name) => {
  const printed = leachLimits.filter(({ articleClass }) => articleClass === name);
  const bounds = [...new Set(printed.map((limit) => limit.bounds).filter(Boolean))];
  const whose = new Set(printed.map((limit) => nameOf(limit.jurisdiction)));
  return { name, says: [...whose].join(", ") + (bounds[0] ? `: ${bounds[0]}` : "") };
});

function nameOf(id: string): string {
  return jurisdictions.find((each) => each.id === id)?.name ?? id;
}
