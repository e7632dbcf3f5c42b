import type { GuidePage } from "./types.ts";

/** What a recipe says, and what its chemistry says of it. */
export const aboutRecipes: readonly GuidePage[] = [
  {
    slug: "base-and-additions",
    title: "Base and additions",
    short: "What the numbers of a recipe are parts of.",
    sections: [
      {
        id: "base",
        title: "The base makes the glass",
        says: [
          "A recipe is a list of powders with parts by weight. The base is what melts into the glass: fluxes that make it melt, silica that it is made of, and clay or feldspar for the alumina that keeps it on the pot.",
          "By custom a base adds up to 100, so that parts read as percent. Where one does not, the recipe's page shows both columns.",
        ],
      },
      {
        id: "additions",
        title: "Additions come on top",
        says: [
          "Colouring oxides, opacifiers and what keeps the bucket stirred up are weighed beside the base, as percent of it. They are never part of the 100, so the same base can be tried in ten colours.",
          "Iron, copper, cobalt or manganese melt too. A large addition changes how the glaze runs and what may leave it, and not its colour alone.",
        ],
      },
      {
        id: "loss",
        title: "What the kiln takes away",
        says: [
          "Loss on ignition (LOI) is the part of a powder that leaves as gas: water from clay, carbon dioxide from whiting and dolomite. It was weighed, but it is not in the glass.",
          "So equal weights of two powders seldom bring equal amounts of what they are bought for.",
        ],
      },
    ],
    worked: [
      "A base of 40, 20, 25 and 15 parts is 100. Iron oxide at 2 parts is an addition of 2 %, so 500 g of base take 10 g of it.",
      "Whiting loses 44.0 % of its weight: 100 g of it leave 56.0 g of lime (CaO) in the glass.",
    ],
    defers:
      "Powders are weighed with a fitted respirator on. The supplier's safety data sheet and the rules where you are say what else each of them asks for.",
  },
  {
    slug: "unity-formula",
    title: "The unity formula",
    short: "How two glazes are compared, whatever they were weighed from.",
    sections: [
      {
        id: "moles",
        title: "Counting instead of weighing",
        says: [
          "In the melt it matters how many there are of each oxide, not how heavy they are. So weights are turned into moles, which count.",
          "The fluxes are then set to 1 all together, and everything else is told beside them. Two glazes with the same figures are chemically the same, from whatever powders.",
        ],
      },
      {
        id: "oxides",
        title: "What each oxide does",
        says: [
          "Fluxes (Li2O, Na2O, K2O, MgO, CaO, SrO, BaO, ZnO) make it melt. Alumina (Al2O3) keeps the melt stiff. Silica (SiO2) is the glass itself. Boron (B2O3) makes glass and melts early, so it is told beside the alumina.",
          "Where iron, manganese, cobalt, copper and nickel are many beside the fluxes, the formula misleads, and the page says so.",
        ],
      },
      {
        id: "ratios",
        title: "Two ratios worth knowing",
        says: [
          "Silica to alumina tells much about gloss: low is often matt, high often glossy, at the same flux and cone. It says nothing about whether the glaze is well melted.",
          "The alkali share is how much of the fluxes is lithia, soda and potash. More of it usually means brighter colour, more expansion and more crazing.",
        ],
      },
      {
        id: "not",
        title: "What it cannot tell",
        says: [
          "Not the grain of the powder, not the speed of the kiln, not the body, not what the glaze gives off. The same formula is a new tile until it has been fired.",
        ],
      },
    ],
    worked: [
      "Potash feldspar 40, whiting 20, quartz 25 and kaolin 15, as ideal minerals, are 0.26 K2O and 0.74 CaO to 0.48 Al2O3 and 3.55 SiO2. Silica to alumina is 7.4, the alkali share 0.26.",
    ],
  },
  {
    slug: "plus-minus",
    title: "What ± means",
    short: "How well a figure is known, and what that leaves out.",
    sections: [
      {
        id: "range",
        title: "A range, not a mistake",
        says: [
          "3.55 ± 0.10 says: by what is known of the powders, the true figure lies between 3.45 and 3.65 about nineteen times in twenty.",
          "The ± of a figure is worked out from the ± of each analysis. Two figures that differ by less than their ± together cannot be told apart.",
        ],
      },
      {
        id: "assumed",
        title: "Where nobody gave one",
        says: [
          "Few analyses come with a ±. Then 3 % of each figure is assumed, at least 0.1, and less close to 100. That is common practice and has no source; the page says where it was assumed.",
          "A lot without an analysis of its own borrows the newest of its powder, with the ± doubled, and is marked.",
        ],
      },
      {
        id: "which-powder",
        title: "Which powder it is the ± of",
        says: [
          "A ± is of the powder that the analysis is of. Another feldspar under the same name can lie many times further off than any ± here.",
          "It counts no mistake in weighing, unless the page asked for grams and scale, and no other kiln.",
        ],
      },
    ],
    worked: ["An oxide at 30 % gets ± 0.9, one at 2 % gets ± 0.1, one at 99.9 % gets ± 0.13."],
  },
  {
    slug: "restating",
    title: "Restating for other powders",
    short: "The same glaze from what is on your shelf.",
    sections: [
      {
        id: "what",
        title: "Aim at the formula",
        says: [
          "A powder is no longer sold, or a recipe comes from a region with other ones. Restating looks for weights of your own powders that give the same unity formula, or the nearest to it, and says what it misses.",
          "Swapping one for the other by weight does not do that: they bring different oxides, and lose different amounts.",
        ],
      },
      {
        id: "names",
        title: "Names are no chemistry",
        says: [
          "The same word can mean two powders in two countries, and one powder has many names. Look at what the names are where you are, and at which look-alike not to buy, before you weigh.",
          "The handout of a recipe or a family says them for a region, beside the analyses that were counted on; give it your own supplier's, and it works the recipe out from those.",
        ],
      },
      {
        id: "new-tile",
        title: "A restated glaze starts as a draft",
        says: [
          "Its grain, its melting and what it carries as traces are new. So nothing that was tested before counts for it: it is fired, tested and reviewed anew, and “nearest” always reads “not the same glaze”.",
        ],
      },
    ],
    worked: [
      "10 g of whiting bring 5.6 g of lime (CaO). As much of it takes 11.6 g of wollastonite, which brings 6.0 g of silica too: that much less quartz is weighed.",
    ],
    defers:
      "A powder that is new to you has its own dangers: read its safety data sheet before you open it.",
  },
];
