import type { Cone } from "./cones.ts";

/**
 * How much B2O3, in the unity formula, glazes carry that melt well at some cones: `least` is where
 * too little shows as a glaze not melted through, and above `most` a glaze is more likely meant for
 * a cooler cone. A printed form of 4 for 04 shows here. Coolest first; common practice, no source.
 */
export type BoronBand = {
  readonly from: Cone;
  readonly to: Cone;
  readonly least: number;
  readonly most: number | null;
};

export const boronBands: readonly BoronBand[] = [
  { from: "010", to: "05", least: 0.5, most: null },
  { from: "04", to: "01", least: 0.4, most: null },
  { from: "1", to: "3", least: 0.25, most: 0.5 },
  { from: "4", to: "5", least: 0.2, most: 0.45 },
  { from: "6", to: "7", least: 0.15, most: 0.4 },
  { from: "8", to: "14", least: 0, most: 0.3 },
];
