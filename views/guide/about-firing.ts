import type { GuidePage } from "./types.ts";

/** Cones, tiles, and what goes wrong on them. */
export const aboutFiring: readonly GuidePage[] = [
  {
    slug: "cones",
    title: "Cones",
    short: "How much a firing did, and why 04 is not 4.",
    sections: [
      {
        id: "order",
        title: "Names in an order",
        says: [
          "A cone is a small pyramid of glaze-like stuff that bends when it has had enough heat. Cones are names in an order, not numbers: from 022, the coolest, up to 01, then 1, 2 and on to 14.",
          "The zero in front belongs to the name. It is never left off and never added.",
        ],
      },
      {
        id: "heat-work",
        title: "Heat and time together",
        says: [
          "Cones answer to heat work: faster firing needs more degrees for the same cone, a hold at the top needs fewer. So a temperature beside a cone always comes with the speed that it holds for.",
          "The temperatures here are those of large self-supporting cones heated at 60 °C an hour towards the end. Small cones and those on a stand of their own go down at others: say which series you use.",
          "Whether pages say the temperature or the cone first, and in which degrees, is yours to set under “How to read this” at the foot of every page. The cone is never left out.",
        ],
      },
      {
        id: "witness",
        title: "The witness cone",
        says: [
          "The controller shows what its probe felt. A witness cone stands beside the ware and shows what the ware got. Evidence of a cone here is a witness cone, never the programme alone.",
          "A recipe's cones are where it is said to work; the tested cones are where a tile of it came out.",
        ],
      },
    ],
    worked: [
      "Cone 04 ends near 1063 °C, cone 4 near 1162 °C, at 60 °C an hour: 99 °C apart. Cone 6 ends near 1222 °C.",
    ],
    defers:
      "A kiln burns, blinds and gives off fumes. Its maker's instructions, the rules where you are and whoever runs it come before this page.",
  },
  {
    slug: "reading-a-tile",
    title: "Reading a tile",
    short: "What a fired tile says, and of what.",
    sections: [
      {
        id: "of-what",
        title: "Of what it speaks",
        says: [
          "A tile speaks for one glaze, one body, one coat, one place in one firing. Read those first: its page names the body, its bisque, the coats or the seconds of the dip, the cone that the witness showed.",
          "A picture is changed by lamp and camera. Believe the tile in your hand before the screen.",
        ],
      },
      {
        id: "look",
        title: "What to look for",
        says: [
          "Edges, where the coat is thin; ridges, where the colour breaks; the foot of the tile, where a runny glaze gathers. Hold it against a window for cracks, pinholes and blisters.",
          "Dry and rough may be underfired or simply thick with alumina; pitted and puffed up may be overfired. A tile from one cone lower and one higher tells which.",
        ],
      },
      {
        id: "body",
        title: "The body under it",
        says: [
          "Absorption is how much water the fired, unglazed body soaks up, as a share of its dry weight. A body that soaks up much lets water in from the foot, and the glaze over it crazes later. For functional ware the studio asks for less than 3 %.",
          "A body fired below its own cones stays open, however good the glaze looks.",
        ],
      },
    ],
  },
  {
    slug: "crazing",
    title: "Crazing and fit",
    short: "Fine cracks: what they are, and why they bar a glaze from food here.",
    sections: [
      {
        id: "what",
        title: "What it is",
        says: [
          "A web of fine cracks through the glaze. It can be there when the kiln is opened or come weeks later, and a crackle glaze is the same thing on purpose.",
          "The opposite is shivering: the glaze is squeezed and flakes off at edges, as sharp splinters. A pot that shivers is thrown away.",
        ],
      },
      {
        id: "expansion",
        title: "Usual causes",
        says: [
          "Glaze and body shrink as they cool. A glaze that shrinks more than its body is pulled apart: it crazes. Linear expansion is how much a thing grows with each degree, so it tells who shrinks more, if both were measured over the same range.",
          "Usual causes: much soda or potash, little silica or boron, a thick coat, a body that is fired too low and takes up water. An expansion worked out from a recipe is a model; here it is only told as higher or lower than a glaze that was seen to fit.",
        ],
      },
      {
        id: "decorative",
        title: "Why crazed is decorative only here",
        says: [
          "Food and water get into the cracks and stay; so do what grows there and what the washing-up leaves. The pot is weaker too. So a glaze that crazes or crackles is decorative only in this studio, whatever else it passed.",
        ],
      },
    ],
    defers:
      "Splinters of a shivering glaze cut and must never reach food. Whether a crazed pot may be sold for food is for the rules where you are.",
  },
  {
    slug: "overlaps",
    title: "Overlaps",
    short: "One glaze over another is a third glaze.",
    sections: [
      {
        id: "third",
        title: "A glaze of its own",
        says: [
          "Where two glazes overlap they melt into a third one. It may run off the pot, craze, or give off what neither of the two does.",
          "So an approval is of one glaze alone. A pair has its own record here: which is under which, its own tiles, its own reviews and standing.",
        ],
      },
      {
        id: "untested",
        title: "Until a pair is approved",
        says: [
          "A pair without a standing of its own is decorative only, even where both glazes are approved for functional ware. Keep the overlap away from rim, inside, and all that food, drink, lips or cutlery touch.",
          "A clear glaze on top does not make a decorative one functional: that is an overlap too.",
        ],
      },
      {
        id: "try",
        title: "Trying one",
        says: [
          "Dip a tile halfway into the one and halfway into the other, stand it on a catch dish, and put both coats on record. Pots in a shared kiln come after the tile.",
        ],
      },
    ],
    defers:
      "A leach report holds for the glaze on its specimens, alone. Ask a licensed laboratory about a pair.",
  },
];
