import { type Hazard, hazardName, hazards, hazardWords } from "../parts/hazard-words.ts";

export type Caution = {
  id: string;
  title: string;
  says: readonly string[];
  /** Named one by one, each with what it does and what to do about it. */
  each?: readonly { name: string; says: string }[];
};

/** Said elsewhere on the page, or of kilns and not of powders. */
const notPowders: readonly Hazard[] = ["dust", "fluorine fumes", "sulphur fumes"];

const poisons = hazards
  .filter((hazard) => !notPowders.includes(hazard))
  .map((hazard) => ({ name: hazardName[hazard], says: hazardWords[hazard] }));

/** What everybody in a glaze room is careful with, in the order of a day's work. */
export const cautions: readonly Caution[] = [
  {
    id: "dust",
    title: "Dust, and the respirator",
    says: [
      "Clay, quartz, feldspar and most glaze powders hold crystalline silica. Its finest part cannot be seen, hangs in the air for hours, and scars the lungs for good.",
      "Weigh and mix with a respirator rated for fine dust by your country's standard and fitted to your own face. A loose paper mask or a beard under the edge lets the dust in.",
      "Put powder into water, never water onto powder. Close a sack or tub as soon as you have what you need. Sand and scrape pots while they are damp.",
    ],
  },
  {
    id: "cleaning",
    title: "Clean wet",
    says: [
      "Wipe tables with a wet sponge, mop floors, rinse the mop. A broom, a dry cloth or a household vacuum cleaner puts the finest dust back into the air that everybody breathes.",
      "Keep an apron for the glaze room and wash it often. Clothes carry dust home.",
    ],
  },
  {
    id: "poisons",
    title: "Raw materials that poison",
    says: [
      "Some materials harm when they are swallowed, breathed in or left on the skin. Read the supplier's safety data sheet before the first spoonful, and keep the sheet where the tub stands. A tub without a name is not used.",
    ],
    each: poisons,
  },
  {
    id: "kiln",
    title: "Kiln fumes and ventilation",
    says: [
      "A firing gives off carbon monoxide, sulphur and fluorine gases, and metals as fume. Much of it has no smell.",
      "Draw the kiln's air to the outside and let fresh air in. Nobody works, eats or sleeps in a kiln room while it fires. With a flame kiln, a carbon monoxide alarm belongs on the wall.",
      "Fluorspar, cryolite and some clays give off fluorine compounds, which attack lungs, eyes and the kiln itself. Gypsum, other sulphates and some clays give off sulphur gases, which choke and set off asthma.",
      "Look into a spy hole with glasses made for infrared light, and open a kiln only when it is cool.",
    ],
  },
  {
    id: "waste",
    title: "Waste glaze and wash water",
    says: [
      "Glaze, rinsing water and the sludge of the trap are collected in a marked tub. They do not go down the drain, on the ground or into the household bin.",
      "What may be done with them differs from town to town: ask the local waste authority, and tell it what the glazes hold.",
    ],
  },
  {
    id: "food",
    title: "No food in the glaze room",
    says: [
      "Nobody eats, drinks or smokes where powders and glazes are handled. Cups and kitchen tools that came in here do not go back to a kitchen.",
      "Wash your hands and forearms when you leave. Cover a cut before you dip.",
    ],
  },
  {
    id: "pregnancy",
    title: "Pregnancy, and children's classes",
    says: [
      "Lead, lithium, barium and manganese, among others, can harm an unborn child. If you are or may be pregnant, or breastfeed, talk to a doctor before you handle raw materials, and leave the weighing to somebody else.",
      "Children take up more of a poison than adults do and put their hands in their mouths. They work with ready-mixed glazes chosen for them, away from powders and from the kiln, in a room cleaned wet beforehand.",
    ],
  },
  {
    id: "leach",
    title: "What a leach test is",
    says: [
      "A laboratory fills the fired piece with a weak acid, waits for a set time at a set temperature, and measures which metals came out of the glaze and how much.",
      "Only a laboratory can do it. Vinegar, lemon and a dishwasher show damage that the eye can see, and metals leave a glaze without any.",
      "A report holds for the pieces tested: that glaze alone, on that clay body, from that firing. Another batch, kiln or clay, or a second glaze that overlaps it, is another piece.",
    ],
  },
  {
    id: "law",
    title: "Limits are a country's law",
    says: [
      "How much lead or cadmium a pot may give off, what has to be tested and what has to be written on it differ from country to country and by the kind of pot. Whoever sells or gives away ware answers to the law of the place.",
      "Figures here come with their source. Whether they are the ones that bind you is for your authority or your laboratory to say.",
    ],
  },
  {
    id: "who-says",
    title: "Who says the last word",
    says: [
      "The supplier's safety data sheet, the rules where you are and a licensed laboratory come before anything written in this library. This program works out chemistry and keeps what people recorded; it does not certify a glaze, a pot or a studio.",
      "If somebody was hurt or swallowed something, call the emergency number or the poison centre of your country first, with the safety data sheet at hand.",
    ],
  },
];
