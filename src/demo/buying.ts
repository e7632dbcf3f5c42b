import type { DemoLot } from "./suppliers.ts";

/** A third one, from whom nothing was bought yet: invented like the others. */
export const slipway = {
  name: "Slipway Sundries",
  about: "A counter behind the boatyard, Saturdays: colourants and small bags.",
} as const;

type Seller = DemoLot["supplier"] | typeof slipway.name;

/** What each takes for sending, in pounds, and whose words it uses. */
export const demoTerms: readonly {
  supplier: Seller;
  region: string;
  carriage: string;
  freeFrom: string | null;
}[] = [
  { supplier: "Quayside Ceramics", region: "United Kingdom", carriage: "9.50", freeFrom: "120" },
  { supplier: "Fen Road Minerals", region: "United Kingdom", carriage: "6.95", freeFrom: "75" },
  { supplier: slipway.name, region: "United States", carriage: "0", freeFrom: null },
];

/** The lists of the autumn: a powder, kilograms of a pack and what it costs in pounds. */
export const demoPriceLists: Readonly<Record<Seller, readonly [string, string, string][]>> = {
  "Quayside Ceramics": [
    ["Potash feldspar", "25", "37.50"],
    ["Soda feldspar", "25", "35.20"],
    ["Quartz", "25", "20.40"],
    ["Whiting", "25", "16.80"],
    ["Kaolin", "25", "27.60"],
    ["Loft frit B", "5", "27.40"],
  ],
  "Fen Road Minerals": [
    ["Loft frit B", "10", "51.50"],
    ["Loft frit B", "2", "12.60"],
    ["Quartz", "5", "6.10"],
    ["Kaolin", "5", "7.90"],
    ["Copper carbonate", "0.5", "15.60"],
    ["Copper carbonate", "0.1", "4.10"],
  ],
  "Slipway Sundries": [
    ["Loft frit B", "1", "8.90"],
    ["Quartz", "1", "1.90"],
    ["Copper carbonate", "0.1", "4.40"],
  ],
};

/** What is to be mixed this autumn, grams of base. */
export const demoPlans = [
  {
    ...{ glaze: "Slack Water", number: 3, grams: "48000" },
    note: "Two tubs for the evening classes after half-term",
  },
  { glaze: "Ebb Green", number: 2, grams: "36000", note: "For the lamp order" },
] as const;
