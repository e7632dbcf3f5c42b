import type { DemoMaterial } from "./shelf.ts";

/** What colours a glaze or makes it opaque, weighed on top of the base. */
export const colourants: readonly DemoMaterial[] = [
  {
    name: "Red iron oxide",
    kind: "colouring oxide",
    about: "Stains everything it touches. Weigh it last.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-10-07",
      oxides: { Fe2O3: ["95.6", "1.0"], SiO2: "2.1", Al2O3: "0.9", MnO: "0.2" },
      loss: "0.7",
    },
  },
  {
    name: "Cobalt carbonate",
    kind: "colouring carbonate",
    about: "Half a percent is blue; one percent is very blue.",
    hazards: ["dust", "cobalt"],
    analysis: { formula: "CoCO3" },
  },
  {
    name: "Copper carbonate",
    kind: "colouring carbonate",
    about: "Green here. Some of it leaves as fume: vents on.",
    hazards: ["dust", "copper"],
    analysis: { formula: "CuCO3·Cu(OH)2" },
  },
  {
    name: "Rutile",
    kind: "titanium ore",
    about: "Ground, light grade. Breaks a glossy surface up and warms the colour.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-07-23",
      oxides: { TiO2: ["94.2", "1.2"], Fe2O3: ["2.9", "0.6"], SiO2: "1.1", ZrO2: "0.7" },
      loss: "0.3",
    },
  },
  {
    name: "Titanium dioxide",
    kind: "opacifier",
    about: "Rutile without the iron: whiter, and it makes small crystals.",
    hazards: ["dust"],
    analysis: { formula: "TiO2" },
  },
  {
    name: "Tin oxide",
    kind: "opacifier",
    about: "The soft white. Costly: ask before using more than 500 g.",
    hazards: ["dust"],
    analysis: { formula: "SnO2" },
  },
  {
    name: "Zirconium silicate",
    kind: "opacifier",
    about: "The cheap white, harder to look at than tin. Milled fine.",
    hazards: ["dust"],
    analysis: {
      measuredOn: "2025-07-23",
      oxides: { ZrO2: "64.8", SiO2: "33.6", Al2O3: "0.8", TiO2: "0.1" },
      loss: "0.2",
    },
  },
  {
    name: "Manganese dioxide",
    kind: "colouring oxide",
    about: "Nobody stands at the kiln while it fires. Wren only, with the fan on.",
    hazards: ["dust", "manganese"],
    analysis: { formula: "MnO2" },
  },
  {
    name: "Nickel oxide",
    kind: "colouring oxide",
    about: "Greys and olives in quarter percents. Gloves, every time.",
    hazards: ["dust", "nickel"],
    analysis: { formula: "NiO" },
  },
  {
    name: "Loft stain coral",
    kind: "inclusion stain",
    about:
      "A ready-made colour sealed in zircon. The maker tells nobody what is inside, so we have no analysis of it.",
    hazards: ["dust"],
    analysis: null,
  },
];
