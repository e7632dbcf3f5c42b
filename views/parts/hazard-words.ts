/** What a material, a kiln or a bucket can do to a person: every hazard the studio has words for. */
export const hazards = [
  "dust",
  "barium",
  "manganese",
  "chromium",
  "vanadium",
  "nickel",
  "cobalt",
  "copper",
  "lead",
  "cadmium",
  "lithium",
  "fluorine fumes",
  "sulphur fumes",
  "caustic",
  "soluble",
  "talc",
] as const;

export type Hazard = (typeof hazards)[number];

/** The name that stands at the head of each caution. */
export const hazardName: Readonly<Record<Hazard, string>> = {
  dust: "Dust",
  barium: "Barium compounds",
  manganese: "Manganese compounds",
  chromium: "Chromium compounds",
  vanadium: "Vanadium compounds",
  nickel: "Nickel compounds",
  cobalt: "Cobalt compounds",
  copper: "Copper compounds",
  lead: "Lead",
  cadmium: "Cadmium",
  lithium: "Lithium compounds",
  "fluorine fumes": "Fluorine fumes",
  "sulphur fumes": "Sulphur fumes",
  caustic: "Caustic powders",
  soluble: "Soluble materials",
  talc: "Talc and vermiculite",
};

/** What it does and what to do about it, in two or three short sentences. */
export const hazardWords: Readonly<Record<Hazard, string>> = {
  dust: "Clay and glaze powders hold silica fine enough to stay in the lungs, and what it does there does not heal. Weigh with a fitted respirator on, keep powders damp or covered, and clean with a wet mop, never a broom.",
  barium:
    "Poisonous when swallowed or breathed in, as powder above all. Gloves and a fitted respirator while weighing, no food anywhere near, hands washed after. It can leave a fired glaze again, so only a laboratory report speaks for one that holds food.",
  manganese:
    "Dust and kiln fumes harm the nerves, slowly and for good. Respirator while weighing; nobody works beside the kiln while it fires, and the room is vented to the outside.",
  chromium:
    "Some chromium compounds cause cancer, and firing can turn a mild one into a harsh one. Keep it off the skin and out of the air, and vent the kiln to the outside. Its vapour can tint pieces that stand near.",
  vanadium:
    "Poisonous and harsh to eyes, skin and breath. Gloves and a fitted respirator while weighing; vent the kiln to the outside.",
  nickel:
    "Breathed in, nickel compounds cause cancer; on the skin they can start an allergy that stays. Gloves and a fitted respirator, every time.",
  cobalt:
    "Harms lungs and heart when breathed in or swallowed over time, and can start an allergy. Gloves and a fitted respirator while weighing.",
  copper:
    "Irritates and is harmful when swallowed; in the kiln some of it turns to fume. Vent to the outside. Copper in a glaze can make other metals leave it more readily.",
  lead: "A poison that the body keeps, worst for children and in pregnancy. More than a trace bars a glaze from food altogether. If a powder turns out to hold it, set it aside, closed, and tell the manager.",
  cadmium:
    "A poison that the body keeps, and a cause of cancer. Never weigh it as a raw compound. A stain that encloses it still needs its supplier's temperature limit and a laboratory report.",
  lithium:
    "Harmful when swallowed, even in small amounts, and it dissolves into the glaze water, so that wet hands carry it. Wear gloves when you dip as well as when you weigh.",
  "fluorine fumes":
    "Gives off fluorine compounds in the kiln, which attack lungs, eyes, and the kiln itself. Vent to the outside and stay out of the room while it fires.",
  "sulphur fumes":
    "Gives off sulphur gases in the kiln, which choke and set off asthma. Vent to the outside and stay out of the room while it fires.",
  caustic:
    "Burns skin and eyes when wet: quicklime, slaked lime and wood ash do. Gloves and goggles; rinse with much water and get help if it reaches an eye.",
  soluble:
    "Part of it goes into the glaze water: it gets at the skin, dries out as crystals and shifts the recipe when water is poured off. Wear gloves, and never pour water off this bucket.",
  talc: "Some deposits hold asbestos fibres. Ask the supplier for a sheet that says this lot is free of them, and keep the sheet with the lot.",
};
