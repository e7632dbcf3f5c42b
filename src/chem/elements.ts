/**
 * Atomic weights as exact decimal strings, so that the float64 chemistry and the 40-digit run of
 * the tests start from the same figures.
 *
 * Source: T. Prohaska et al., "Standard atomic weights of the elements 2021 (IUPAC Technical
 * Report)", Pure and Applied Chemistry 94 (2022), 573–600, abridged to five significant figures.
 * Uranium is abridged from the same table from memory (238.02891).
 */
export const atomicWeight = {
  H: "1.008",
  Li: "6.94",
  B: "10.81",
  C: "12.011",
  N: "14.007",
  O: "15.999",
  F: "18.998",
  Na: "22.990",
  Mg: "24.305",
  Al: "26.982",
  Si: "28.085",
  P: "30.974",
  S: "32.06",
  Cl: "35.45",
  K: "39.098",
  Ca: "40.078",
  Ti: "47.867",
  V: "50.942",
  Cr: "51.996",
  Mn: "54.938",
  Fe: "55.845",
  Co: "58.933",
  Ni: "58.693",
  Cu: "63.546",
  Zn: "65.38",
  Se: "78.971",
  Sr: "87.62",
  Y: "88.906",
  Zr: "91.224",
  Nb: "92.906",
  Mo: "95.95",
  Ag: "107.87",
  Cd: "112.41",
  Sn: "118.71",
  Sb: "121.76",
  Ba: "137.33",
  La: "138.91",
  Ce: "140.12",
  Pr: "140.91",
  Nd: "144.24",
  Er: "167.26",
  W: "183.84",
  Au: "196.97",
  Pb: "207.2",
  Bi: "208.98",
  U: "238.03",
} as const;

export type ElementSymbol = keyof typeof atomicWeight;

/** Whether a text is the symbol of an element we hold a weight for; case matters: Co is not CO. */
export const isElement = (text: string): text is ElementSymbol => Object.hasOwn(atomicWeight, text);
