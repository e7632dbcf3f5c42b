import type { Who } from "./people.ts";

/** What people elsewhere call a powder of the demo's shelf, and which bag that word can also mean. */
export type DemoName = {
  material: string;
  name: string;
  region: string;
  caution: string;
  by: Who;
};

export const namesElsewhere: readonly DemoName[] = [
  {
    material: "Quartz",
    name: "Silica",
    region: "United States",
    caution:
      "Buy the flour that passes 200 mesh or finer. In the United Kingdom a bag called silica is often a coarse sand, which does not melt in.",
    by: "ines",
  },
  {
    material: "Quartz",
    name: "Flint",
    region: "United Kingdom",
    caution:
      "Ground flint does the same work. Some sellers use the word for quartz and the other way round: what counts is how fine it is.",
    by: "ines",
  },
  {
    material: "Whiting",
    name: "Calcium carbonate",
    region: "United States",
    caution:
      "Ask for the ceramic grade. What is sold for gardens is coarse, and what is sold for whitewash is slaked lime, which burns skin.",
    by: "ines",
  },
  {
    material: "Whiting",
    name: "Chalk",
    region: "Ireland",
    caution: "Blackboard chalk is often gypsum, which is another thing altogether.",
    by: "tam",
  },
  {
    material: "Kaolin",
    name: "China clay",
    region: "United Kingdom",
    caution:
      "Take the one for glazes. Calcined china clay has lost its water already and is not weighed one for one.",
    by: "ines",
  },
  {
    material: "Potash feldspar",
    name: "Orthoclase",
    region: "Germany",
    caution: "A bag that says only feldspar may be the soda one: read its K2O and Na2O.",
    by: "rukmini",
  },
  {
    material: "Soda feldspar",
    name: "Albite",
    region: "Germany",
    caution: "A bag that says only feldspar may be the potash one: read its K2O and Na2O.",
    by: "rukmini",
  },
  {
    material: "Talc",
    name: "French chalk",
    region: "United Kingdom",
    caution:
      "The tailor's sort is talc, but with no sheet on asbestos. It is not chalk, and whiting will not stand in for it.",
    by: "tam",
  },
  {
    material: "Red iron oxide",
    name: "Ferric oxide",
    region: "United States",
    caution: "Black and yellow iron oxide weigh otherwise for the same colour.",
    by: "jonah",
  },
  {
    material: "Zirconium silicate",
    name: "Zircon",
    region: "Australia",
    caution: "Zircon sand is the same stuff left coarse and makes nothing white. Buy it milled.",
    by: "sefton",
  },
  {
    material: "Magnesium carbonate",
    name: "Light magnesia",
    region: "United Kingdom",
    caution:
      "Here it means the light carbonate. Burnt magnesia is the oxide, half the weight for the same magnesia.",
    by: "sefton",
  },
  {
    material: "Tin oxide",
    name: "Stannic oxide",
    region: "United States",
    caution: "",
    by: "sefton",
  },
  {
    material: "Manganese dioxide",
    name: "Pyrolusite",
    region: "Germany",
    caution: "Ground ore comes granular for speckling bodies; for a glaze take the powder.",
    by: "tam",
  },
];
