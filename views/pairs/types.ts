import type { StandingIs, UseIs } from "../parts/standing.tsx";

export type ShownGlaze = { slug: string; name: string; number: number; use: UseIs };

export type ShownPair = {
  id: string;
  over: ShownGlaze;
  under: ShownGlaze;
  about: string;
  by: { name: string };
  at: Date;
  standing: { is: StandingIs; for: UseIs | null; because: readonly string[] };
};

/** What a pair may be used for now: for more than decoration only where it is approved for more. */
export const useOfPair = ({ standing }: Pick<ShownPair, "standing">): UseIs =>
  standing.is === "approved" && standing.for === "functional" ? "functional" : "decorative";
