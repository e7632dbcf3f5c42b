import { Decimal } from "decimal.js";
import type { Cone } from "../chem/cones.ts";
import type { DemoLine } from "./glazes.ts";
import { madeUpName } from "./made-up-names.ts";
import { mulberry32 } from "./random.ts";

/** A recipe that nobody thought of, from the materials of the demo's shelf. */
export type MadeUp = {
  name: string;
  base: DemoLine[];
  additions: DemoLine[];
  use: "functional" | "decorative";
  cones: readonly [low: Cone, high: Cone];
  surface: string;
  shownTo: "private" | "studio" | "public";
};

/**
 * The made-up recipe of a number, the same for the same number: a feldspar, boron from the frit,
 * something with calcia, a clay, and quartz for the rest of 100, in halves as people weigh it.
 */
export function madeUpRecipe(number: number): MadeUp {
  const random = mulberry32(0x5a17 + number * 2_654_435);
  const pick = <Each>(choices: readonly [Each, ...Each[]]): Each =>
    choices[Math.floor(random() * choices.length)] ?? choices[0];
  const between = (least: number, most: number): number =>
    Math.round((least + random() * (most - least)) * 2) / 2;

  const matt = random() < 0.3;
  const base: [string, number][] = [
    [pick(["Potash feldspar", "Soda feldspar", "Nepheline syenite"]), between(24, 34)],
    ["Loft frit B", matt ? between(14, 18) : between(16, 26)],
    random() < 0.6 ? ["Whiting", between(9, 14)] : ["Wollastonite", between(14, 20)],
    [pick(["Kaolin", "Kaolin", "Ball clay"]), matt ? between(12, 16) : between(9, 14)],
  ];
  if (matt) base.push(["Dolomite", between(8, 12)]);
  else if (random() < 0.5) base.push(["Talc", between(2, 6)]);
  else if (random() < 0.3) base.push(["Zinc oxide", between(2, 4)]);
  const weighed = base.reduce((sum, [, amount]) => sum + amount, 0);
  base.push(["Quartz", 100 - weighed]);

  const { additions, use } = pick(colours);
  return {
    name: madeUpName(number),
    base: base.map(inWords),
    additions: additions.map(([material, least, most]) =>
      inWords([material, least === most ? least : between(least, most)]),
    ),
    use,
    cones: pick<MadeUp["cones"]>([
      ["6", "6"],
      ["5", "6"],
      ["6", "7"],
    ]),
    surface: matt ? pick(["matt", "satin"]) : pick(["gloss", "gloss", "satin"]),
    shownTo: pick([
      "public",
      "public",
      "public",
      "public",
      "public",
      "public",
      "studio",
      "private",
    ]),
  };
}

const inWords = ([material, amount]: readonly [string, number]): DemoLine => [
  material,
  new Decimal(amount).toFixed(),
];

type Colour = {
  additions: readonly (readonly [material: string, least: number, most: number])[];
  use: MadeUp["use"];
};

/** What is put on top. Copper and nickel want a laboratory's word, so those are decorative. */
const colours: readonly [Colour, ...Colour[]] = [
  { additions: [], use: "functional" },
  { additions: [["Tin oxide", 3, 6]], use: "functional" },
  { additions: [["Zirconium silicate", 5, 10]], use: "functional" },
  { additions: [["Red iron oxide", 1, 4]], use: "functional" },
  { additions: [["Red iron oxide", 6, 9]], use: "functional" },
  {
    additions: [
      ["Cobalt carbonate", 0.5, 0.5],
      ["Rutile", 2, 5],
    ],
    use: "functional",
  },
  {
    additions: [
      ["Tin oxide", 2, 4],
      ["Rutile", 2, 4],
    ],
    use: "functional",
  },
  { additions: [["Titanium dioxide", 4, 8]], use: "functional" },
  { additions: [["Copper carbonate", 1, 4]], use: "decorative" },
  {
    additions: [
      ["Copper carbonate", 1, 3],
      ["Rutile", 2, 4],
    ],
    use: "decorative",
  },
  {
    additions: [
      ["Red iron oxide", 1, 2],
      ["Nickel oxide", 0.5, 1],
    ],
    use: "decorative",
  },
  { additions: [["Loft stain coral", 4, 10]], use: "decorative" },
];
