import type { GuidePage } from "./types.ts";

/** What may be used, what hurts, what a test shows, and the bucket. */
export const aboutUse: readonly GuidePage[] = [
  {
    slug: "approval",
    title: "What approval means here",
    short: "Draft, in review, approved, needs another look; functional and decorative only.",
    sections: [
      {
        id: "words",
        title: "The five words",
        says: [
          "Draft: nobody has reviewed it. In review: somebody asked for a review, or an objection is open. Approved: a reviewer who did not write it looked at the evidence and said so. Needs another look: it was approved, and something it rested on has changed. Withdrawn: taken back.",
          "Each revision has its own word. A change to a recipe is a new revision and starts again.",
        ],
      },
      {
        id: "functional",
        title: "Functional",
        says: [
          "May be used where food, drink and lips touch, in this studio, by what it knows. It asks for sound tiles at both ends of the stated cones, shown by witness cones, on a body within its own cones that absorbs less than 3 %; acid, alkali and dishwasher tests passed on such tiles; a laboratory's leach report for each element that is over its level; and no stop.",
          "It is a record of what was looked at. It is no promise about your pot, and no certificate.",
        ],
      },
      {
        id: "decorative-only",
        title: "Decorative only",
        says: [
          "Nowhere food, drink, lips or cutlery touch: not inside, not on the rim or within 20 mm of it, not on spoon rests, lidded jars or pet bowls. Crazed and crackle glazes are always decorative only.",
        ],
      },
      {
        id: "who",
        title: "Who reviews",
        says: [
          "Reviewers and managers of the studio, never of their own recipe. What they looked at stands beside their verdict, and anybody can object in a note, which stays open until it is answered.",
        ],
      },
      {
        id: "ends",
        title: "What ends an approval",
        says: [
          "A new analysis, or a lot put into a bucket, that moves an oxide of the unity formula by more than 2 % of itself and by more than 0.01, or the expansion by more than 0.2 millionths for each degree; an element of the leach list that was not there; a finding that got worse or better; a test that failed; an open objection; a withdrawal for safety of the same glaze; the end of its time, where the studio set one.",
          "The ± of a figure never makes these bounds wider.",
        ],
      },
    ],
    worked: ["Silica at 3.00 may move to 3.05 and the approval holds; at 3.07 it has ended."],
    defers:
      "What may be sold or given away for food is a country's law. Follow the local rules, and ask a licensed laboratory.",
  },
  {
    slug: "dust-and-poison",
    title: "Dust and poison",
    short: "What harms in a glaze room, and the habits that keep it away.",
    sections: [
      {
        id: "dust",
        title: "Dust",
        says: [
          "Clay, quartz and feldspar hold silica so fine that it cannot be seen. It stays in the lungs, and what it does there does not heal. Weigh with a fitted respirator, put powder into water, keep tubs closed, wipe and mop wet, never sweep.",
        ],
      },
      {
        id: "poison",
        title: "Poison",
        says: [
          "Barium, manganese, lithium, chromium, nickel, cobalt, copper and vanadium compounds harm when breathed in, swallowed or left on the skin. Soluble powders get through wet hands: gloves when you dip, too. Nobody eats or drinks in the glaze room.",
          "A tub without a name is not used. Its powder is set aside and the manager is told.",
        ],
      },
      {
        id: "kiln",
        title: "Fumes",
        says: [
          "A firing gives off carbon monoxide, sulphur, fluorine and metal fume, much of it without a smell. The kiln is vented to the outside, and nobody stays in its room.",
        ],
      },
      {
        id: "who-else",
        title: "Children, pregnancy, the drain",
        says: [
          "Children and whoever is or may be pregnant keep away from powders: ask the manager, and a doctor. Waste glaze and wash water are collected and handed in by local rules, never poured away.",
        ],
      },
    ],
    defers:
      "The supplier's safety data sheet and the rules where you are come before this page. If somebody is hurt, call the emergency number or the poison centre first.",
  },
  {
    slug: "testing",
    title: "Testing",
    short: "What tests at home can show, and what only a laboratory can.",
    sections: [
      {
        id: "acid",
        title: "Acid",
        says: [
          "Lemon or vinegar stands on the tile for a day or two. A change of gloss or colour shows that the glaze is attacked, and then it is not functional. No change shows only that no damage can be seen: metals leave a glaze without any.",
        ],
      },
      {
        id: "alkali",
        title: "Alkali, and the dishwasher",
        says: [
          "Washing soda in hot water for hours, or many rounds in a dishwasher beside an untouched half of the tile. Dull or faded is a failure. It tells of wear over months, and nothing of what leached.",
          "Hot soda water burns: gloves and goggles, and a lid.",
        ],
      },
      {
        id: "thermal-shock",
        title: "Thermal shock",
        says: [
          "From cold into boiling water and back, some rounds, then ink over the surface to find cracks. It can bring out crazing that was waiting. It does not show that a dish stands an oven, and a pot may burst: goggles, and stand back.",
        ],
      },
      {
        id: "leach",
        title: "In a laboratory",
        says: [
          "A leach test fills fired pieces with a weak acid for a set time at a set temperature and measures what came out. No test at home stands in for it.",
          "A report holds for the glaze, body, firing and batch named on it. A result below what the method can see reads as “<”, and where that is above the limit it tells nothing.",
        ],
      },
      {
        id: "limits",
        title: "Limits are a country's law",
        says: [
          "They differ by country and by the kind of pot, and a figure for drinking water is not one for pottery. For most metals no limit for pottery is held here, and then the page says so.",
        ],
      },
    ],
    defers:
      "Follow the safety data sheet of what you test with. What a report means for your ware is for a licensed laboratory and the rules where you are.",
  },
  {
    slug: "bucket",
    title: "Mixing and keeping a bucket",
    short: "Gravity, flow, and why water is not always the answer.",
    sections: [
      {
        id: "mixing",
        title: "Mixing",
        says: [
          "Powder into water, with the respirator on. Let it soak, stir, put it through the sieve that the sheet names, and stir again. Tick each powder as it goes in: nobody remembers the fourth one.",
          "A new mix is on hold until a proof tile of it came out right.",
        ],
      },
      {
        id: "gravity",
        title: "Specific gravity",
        says: [
          "How many times as heavy as water it is: weigh a litre, well stirred and without froth, in kilograms. It tells how much powder is in the water, and so how thick a coat a dip leaves.",
          "Gravity comes first: a flow that is measured at the wrong gravity says nothing.",
        ],
      },
      {
        id: "flow",
        title: "Flow",
        says: [
          "How many seconds a cup with a hole takes to run out. In gravity but too slow, the bucket has set: water would only thin the coat. A drop of what loosens it, or stiffens it, is put on record in the bucket's own history, not in the recipe.",
        ],
      },
      {
        id: "dry-gravity",
        title: "The gravity of the dry powder",
        says: [
          "How heavy the grains themselves are, without the air between them. With it, the gravity of a slurry gives its dry content, to 3 % at best. Where nobody put one down, 2.65 is assumed, and marked.",
        ],
      },
      {
        id: "keeping",
        title: "Keeping",
        says: [
          "Stir from the bottom, close the lid, write what you saw. Never pour water off a bucket with something soluble in it. Lumps, a smell, crystals, somebody's dripping brush: report it with one press.",
        ],
      },
    ],
    worked: [
      "10 litres at 1.50 that should be 1.45 take 1111 g of water. At 1.50, with a dry powder of 2.65, they hold 8.0 kg of it, give or take 0.24 kg.",
    ],
    defers:
      "Wear gloves where the label says so. Waste glaze goes where the rules where you are say, never down the drain.",
  },
];
