import type { DemoMaterial } from "./shelf.ts";

/** The base materials, by their generic names. Figures are invented and of no real product. */
export const powders: readonly DemoMaterial[] = [
  {
    name: "Potash feldspar",
    kind: "feldspar",
    about: "The flux that most of our glazes start from. Kept in the blue bin under the bench.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-02-11",
      oxides: {
        SiO2: ["66.1", "0.8"],
        Al2O3: ["18.2", "0.5"],
        K2O: ["11.3", "0.4"],
        Na2O: ["3.0", "0.3"],
        CaO: "0.4",
        Fe2O3: ["0.09", "0.03"],
      },
      loss: "0.5",
    },
    later: {
      by: "ines",
      at: "2026-06-03T09:10:00Z",
      analysis: {
        measuredOn: "2026-05-19",
        oxides: {
          SiO2: ["66.8", "0.8"],
          Al2O3: ["17.9", "0.5"],
          K2O: ["10.6", "0.4"],
          Na2O: ["3.4", "0.3"],
          CaO: "0.4",
          Fe2O3: ["0.11", "0.03"],
        },
        loss: "0.5",
      },
    },
  },
  {
    name: "Soda feldspar",
    kind: "feldspar",
    about: "Melts a little sooner than the potash one and crazes sooner too.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-02-11",
      oxides: { SiO2: "68.4", Al2O3: "19.0", Na2O: "10.2", K2O: "0.8", CaO: "0.9", Fe2O3: "0.08" },
      loss: "0.4",
    },
  },
  {
    name: "Nepheline syenite",
    kind: "feldspathoid",
    about: "More alkali and alumina than any feldspar. Settles hard: stir from the bottom.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-06-30",
      oxides: {
        SiO2: ["60.2", "0.7"],
        Al2O3: ["23.4", "0.5"],
        Na2O: ["10.1", "0.4"],
        K2O: ["4.8", "0.3"],
        CaO: "0.5",
        Fe2O3: "0.09",
      },
      loss: ["0.6", "0.1"],
    },
  },
  {
    name: "Quartz",
    region: "United Kingdom",
    kind: "silica",
    about:
      "Ground fine enough to pass a 200 mesh. The coarse sand for grogging clay is another bag.",
    hazards: ["dust"],
    analysis: { formula: "SiO2" },
  },
  {
    name: "Whiting",
    region: "United Kingdom",
    kind: "calcium carbonate",
    about: "Chalk, ground. The plain way to bring in calcia.",
    hazards: ["dust"],
    analysis: { formula: "CaCO3" },
    later: {
      by: "tam",
      at: "2026-09-21T16:00:00Z",
      analysis: {
        measuredOn: "2026-09-08",
        oxides: { CaO: ["54.9", "0.4"], MgO: "0.6", SiO2: "0.9", Al2O3: "0.2", Fe2O3: "0.06" },
        loss: ["43.2", "0.2"],
      },
    },
  },
  {
    name: "Dolomite",
    kind: "calcium magnesium carbonate",
    about: "Calcia and magnesia in one powder. A little smooths a glaze, more makes it matt.",
    hazards: ["dust"],
    analysis: { formula: "CaMg(CO3)2" },
    later: {
      by: "ines",
      at: "2026-10-02T09:30:00Z",
      inUse: true,
      analysis: {
        oxides: { CaO: ["30.0", "0.6"], MgO: ["20.4", "0.5"], SiO2: ["2.6", "0.3"] },
        loss: ["46.4", "0.5"],
        measuredOn: "2026-09-21",
      },
    },
  },
  {
    name: "Wollastonite",
    kind: "calcium silicate",
    about: "Calcia without the gas that whiting gives off. Needles: sieve it twice.",
    hazards: ["dust"],
    analysis: { formula: "CaSiO3" },
  },
  {
    name: "Talc",
    kind: "magnesium silicate",
    about:
      "Floats at first; wet it with a little hot water. The supplier's sheet is in the folder.",
    hazards: ["dust", "talc"],
    analysis: {
      measuredOn: "2025-09-15",
      oxides: { SiO2: "61.6", MgO: "31.4", CaO: "0.6", Al2O3: "0.7", Fe2O3: "0.5" },
      loss: "5.2",
    },
  },
  {
    name: "Kaolin",
    kind: "clay",
    about: "Keeps the bucket from settling and gives the alumina.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-04-02",
      oxides: {
        SiO2: ["47.3", "0.6"],
        Al2O3: ["37.2", "0.6"],
        K2O: "1.6",
        MgO: "0.2",
        Fe2O3: ["0.6", "0.1"],
        TiO2: "0.05",
      },
      loss: ["12.7", "0.3"],
    },
  },
  {
    name: "Ball clay",
    kind: "clay",
    about: "Stickier than kaolin and with more iron, so whites turn cream.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-04-02",
      oxides: {
        SiO2: "55.2",
        Al2O3: "29.1",
        K2O: "2.2",
        Na2O: "0.3",
        MgO: "0.4",
        CaO: "0.2",
        Fe2O3: "1.1",
        TiO2: "1.3",
      },
      loss: "10.0",
    },
  },
  {
    name: "Zinc oxide",
    kind: "oxide",
    about: "A strong flux at cone 6 in oxidation. Turns iron dull and chrome brown.",
    hazards: ["dust"],
    analysis: { formula: "ZnO" },
  },
  {
    name: "Magnesium carbonate",
    kind: "carbonate",
    about:
      "The light sort, mostly air. Shrinks so much that thick coats crawl, which is the point.",
    hazards: ["dust"],
    analysis: { formula: "4MgCO3·Mg(OH)2·4H2O" },
  },
  {
    name: "Barium carbonate",
    kind: "carbonate",
    about: "Locked cupboard, gloves and respirator, weighed by two people. Ask Ines for the key.",
    hazards: ["dust", "barium"],
    analysis: { formula: "BaCO3" },
  },
  {
    name: "Loft frit B",
    kind: "frit",
    about:
      "Our boron: smelted, so it does not dissolve into the bucket. An invented oxide formula.",
    hazards: ["dust"],
    analysis: { formula: "0.3Na2O·0.7CaO·0.25Al2O3·0.65B2O3·2.4SiO2" },
  },
  {
    name: "Colemanite",
    kind: "boron mineral",
    about: "Boron as it is dug: every lot was a little different, and it spits where it is thick.",
    hazards: ["dust", "soluble"],
    analysis: {
      measuredOn: "2025-01-20",
      oxides: {
        CaO: ["26.4", "0.9"],
        B2O3: ["40.8", "1.5"],
        SiO2: ["4.6", "0.6"],
        MgO: ["1.8", "0.4"],
        Na2O: "0.3",
        Al2O3: "0.4",
        Fe2O3: "0.1",
      },
      loss: ["25.1", "1.0"],
    },
    noLongerSold: {
      by: "ines",
      at: "2026-05-11T09:30:00Z",
      since: "2026-04-30",
      why: "Fen Road Minerals sold their last pallet in April and Quayside Ceramics never had it. Our own tub is down to the bottom.",
    },
  },
];
