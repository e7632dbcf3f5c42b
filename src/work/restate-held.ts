import type { Oxide } from "../chem/oxides.ts";
import { missesOf } from "../chem/restate-reasons.ts";
import { type Restatable, unityOfMix } from "../chem/restating.ts";
import { bestMix, type Remaining } from "./restate-mix.ts";
import type { RestateGoal } from "./restate-model.ts";

/**
 * Which of the oxides that are held cannot be, and why, by the mix that comes nearest to them;
 * undefined where it is not the hold that is in the way.
 */
export async function whyNotHeld(
  { held = {}, ...goal }: RestateGoal,
  shelf: readonly Restatable[],
  remaining: Remaining,
): Promise<string | undefined> {
  const first = Object.keys(held) as Oxide[];
  const mix = await bestMix({ ...goal, first }, shelf, remaining);
  if (typeof mix === "string") return undefined;
  const { amounts } = mix;
  const unity = unityOfMix(shelf.map(({ key, moles }) => ({ moles, amount: amounts[key] ?? 0 })));
  if (!unity) return undefined;
  const { wanted, counted } = goal;
  return missesOf({ wanted, counted, shelf, amounts, unity, relaxed: [] })
    .filter(({ oxide, got }) => {
      const { least, most } = held[oxide] ?? { least: got, most: got };
      return got < least || got > most;
    })
    .map(
      ({ oxide, wanted: want, got, because }) =>
        `${oxide} cannot be held at ${want.toFixed(3)}: ${got.toFixed(3)} is the nearest. ${because}`,
    )
    .join(" ");
}
