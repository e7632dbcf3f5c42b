import type { Cone } from "../../src/chem/cones.ts";
import type { Hazard } from "../parts/hazard-words.ts";
import type { MarkIs } from "./mark.tsx";

/** All that a label says; how much of it is printed follows from the paper. */
export type ShownLabel = {
  bucket: { id: string; name: string };
  mark: MarkIs;
  cones: { low: Cone; high: Cone };
  atmosphere: string;
  mixedAt: Date | null;
  keepsUntil: Date | null;
  recipe: { name: string };
  number: number;
  digest: string;
  /** The gravest of its powders, as their suppliers' sheets have it; null where none was put down. */
  signal: "danger" | "warning" | "none" | null;
  statements: readonly string[];
  /** Of the powders whose sheet nobody put down; dust is for whoever opens a bag. */
  hazards: readonly Hazard[];
  dissolves: boolean;
  ask: string;
};

export type ShownCode = { modules: number; path: string };
