/** Who sells powders to the demo's studio: invented, with invented prices. */
export const demoSuppliers = [
  {
    name: "Quayside Ceramics",
    about: "By van every second Thursday; whole sacks only, and ring before ten.",
  },
  {
    name: "Fen Road Minerals",
    about: "Small packs by post, a week and a half. Cheaper from 10 kg of one powder.",
  },
] as const;

type SupplierName = (typeof demoSuppliers)[number]["name"];

/** One delivery: what a pack costs in pounds, and how many came. */
export type DemoLot = {
  material: string;
  supplier: SupplierName;
  packKilograms: string;
  packPounds: string;
  packs: number;
  mark?: string;
  at?: string;
  bestBefore?: string;
};

const quayside = "Quayside Ceramics";
const fenRoad = "Fen Road Minerals";

/** The powders of the bases, with the newest delivery of each last. */
export const demoLots: readonly DemoLot[] = [
  lot("Potash feldspar", quayside, "25", "31.50", 2, "PF 2501"),
  lot("Soda feldspar", quayside, "25", "34.00", 1),
  lot("Nepheline syenite", fenRoad, "10", "18.60", 2),
  lot("Quartz", quayside, "25", "19.75", 2),
  lot("Whiting", quayside, "25", "16.20", 1),
  lot("Dolomite", quayside, "25", "17.40", 1),
  lot("Wollastonite", fenRoad, "10", "21.00", 1),
  lot("Talc", fenRoad, "10", "22.80", 1),
  lot("Kaolin", quayside, "25", "26.90", 2),
  lot("Ball clay", quayside, "25", "18.30", 1),
  { ...lot("Zinc oxide", fenRoad, "2", "19.40", 1), bestBefore: "2027-01-31" },
  lot("Loft frit B", fenRoad, "10", "48.00", 2),
  lot("Red iron oxide", fenRoad, "1", "6.80", 1),
  lot("Copper carbonate", fenRoad, "0.5", "14.90", 1),
  lot("Rutile", fenRoad, "1", "11.20", 1),
  {
    ...lot("Potash feldspar", quayside, "25", "36.75", 1, "PF 2605"),
    at: "2026-06-02T11:00:00Z",
  },
];

/** How much was missing of some powders when the room was counted, each of its newest lot. */
export const demoCounts = [
  { material: "Quartz", missing: "180" },
  { material: "Talc", missing: "0" },
] as const;

function lot(
  material: string,
  supplier: SupplierName,
  packKilograms: string,
  packPounds: string,
  packs: number,
  mark = "",
): DemoLot {
  return { material, supplier, packKilograms, packPounds, packs, mark };
}
