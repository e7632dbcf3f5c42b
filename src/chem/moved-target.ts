import { fluxes, type Oxide, oxides } from "./oxides.ts";
import type { Moles } from "./restating.ts";

/** One oxide of the unity formula and what it is moved to, moles for one of flux. */
export type OxideMove = { oxide: Oxide; to: number };

export type MovedTarget =
  | { kind: "target"; wanted: Moles }
  | { kind: "refused"; at: number; says: string; wanted: Moles };

/** The most moles of anything for one of flux that can be asked for. */
export const mostMoles = 20;

/**
 * What is wanted after moves, made one after the other. The fluxes add up to 1: where one of them is
 * moved, the others that are not held are scaled so that they still do, those moved before among
 * them. Where nothing is left to scale a move is refused; `at` is its place, and `wanted` what was before it.
 *
 * Worked number: CaO from 0.7 to 0.8 beside K2O 0.2 and Na2O 0.1 leaves these 0.133 and 0.067; with
 * K2O held it leaves Na2O 0.
 */
export function movedTarget(
  present: Moles,
  moves: readonly OxideMove[],
  held: readonly Oxide[],
): MovedTarget {
  let wanted = present;
  for (const [at, move] of moves.entries()) {
    if (!isFlux(move.oxide)) wanted = { ...wanted, [move.oxide]: move.to };
    else {
      const after = withFlux(wanted, move, held);
      if (typeof after === "string") return { kind: "refused", at, says: after, wanted };
      wanted = after;
    }
  }
  return { kind: "target", wanted };
}

export const isFlux = (oxide: Oxide): boolean => fluxes.some((flux) => flux === oxide);

function withFlux(wanted: Moles, { oxide, to }: OxideMove, held: readonly Oxide[]): Moles | string {
  const others = fluxes.filter((flux) => flux !== oxide && (wanted[flux] ?? 0) > 0);
  const free = others.filter((flux) => !held.includes(flux));
  const sum = (of: readonly Oxide[]) => of.reduce((all, flux) => all + (wanted[flux] ?? 0), 0);
  const kept = others.filter((flux) => held.includes(flux));
  const rest = 1 - to - sum(kept);
  if (free.length === 0 && Math.abs(rest) > leastMoles)
    return kept.length === 0
      ? `The fluxes add up to 1, and ${oxide} is the only one, so it stays at 1. Bring in another flux first.`
      : `The fluxes add up to 1, and all others (${kept.join(", ")}) are held, so ${oxide} cannot move. Let go of one.`;
  if (rest < -leastMoles)
    return kept.length === 0
      ? `The fluxes add up to 1, so ${oxide} can be 1 at the most.`
      : `The fluxes add up to 1, and ${kept.join(", ")} are held at ${shown(sum(kept))} together, so ${oxide} can be ${shown(1 - sum(kept))} at the most. Let go of one.`;
  const scale = Math.max(0, rest) / (sum(free) || 1);
  const scaled = free.map((flux) => [flux, (wanted[flux] ?? 0) * scale]);
  return { ...wanted, ...Object.fromEntries(scaled), [oxide]: to };
}

const leastMoles = 1e-9;

const shown = (moles: number): string => String(Number(moles.toFixed(3)));

/**
 * How far a press moves an oxide, moles for one of flux. Common practice, no source: fluxes, Al2O3
 * and B2O3 in twentieths and SiO2 in fifths are about the least that a tile shows; what is there in
 * hundredths, such as TiO2 or Fe2O3, moves by hundredths.
 */
export function stepOf(oxide: Oxide): number {
  if (oxide === "SiO2") return 0.2;
  return isFlux(oxide) || oxide === "Al2O3" || oxide === "B2O3" ? 0.05 : 0.01;
}

/**
 * How far a held oxide may still be off, in moles: 1 % of itself, or 0.005 where that is more. Common
 * practice, no source: half of what an approval bears.
 */
export const holdWithin = (moles: number): number => Math.max(0.01 * moles, 0.005);

/** Oxides that a formula has some of, in the order of display; float64 noise is none. */
export const oxidesIn = (unity: Moles): Oxide[] =>
  oxides.filter((oxide) => (unity[oxide] ?? 0) > leastMoles);
