import { oxides } from "./oxides.ts";
import { outOfReach } from "./shelf-mix.ts";
import type { PlanPowder } from "./shelf-plan-types.ts";

type Asked = {
  wanted: readonly number[] | null;
  /** What is on the shelf, and every powder that could be. */
  shelf: readonly PlanPowder[];
  candidates: readonly PlanPowder[];
  within: number;
};

export const noFlux =
  "Its base has no flux, so it has no unity formula that another mix could be held against.";

/** Why a shelf does not reach a recipe, and whether all the candidates together would. */
export function whyMissed({ wanted, shelf, candidates, within }: Asked): string {
  if (!wanted) return noFlux;
  const all = outOfReach({ wanted, powders: candidates, within });
  if (all === null) return "None of the candidates brings a flux.";
  if (all.length > 0)
    return `Not even with all the candidates. ${offWords(all, wanted, candidates)}`;
  if (shelf.length === 0) return "There is nothing on the shelf.";
  const off = outOfReach({ wanted, powders: shelf, within });
  if (off === null) return "Nothing on this shelf brings a flux.";
  return offWords(off, wanted, shelf);
}

function offWords(
  off: readonly { place: number; wanted: number; got: number }[],
  wanted: readonly number[],
  shelf: readonly PlanPowder[],
): string {
  const lacking = off.filter(
    ({ place }) => (wanted[place] ?? 0) > 0 && shelf.every(({ moles }) => !moles[place]),
  );
  const others = off.filter((each) => !lacking.includes(each));
  const sentences: string[] = [];
  if (lacking.length > 0) {
    const wants = lacking.map(({ place, wanted: want }) => `${name(place)} ${figure(want)}`);
    sentences.push(`It wants ${listed(wants)}, which nothing there brings.`);
  }
  if (others.length > 0) {
    const misses = others.map(
      ({ place, wanted: want, got }) =>
        `${figure(got)} ${name(place)} where ${figure(want)} is wanted`,
    );
    sentences.push(`The nearest mix has ${listed(misses)}.`);
  }
  if (sentences.length === 0)
    sentences.push("No mix of these keeps every oxide within its tolerance.");
  return sentences.join(" ");
}

const name = (place: number): string => oxides[place] ?? "";

const figure = (value: number): string => value.toFixed(value !== 0 && value < 0.01 ? 4 : 3);

/** “a”, “a and b”, “a, b and c”. */
export const listed = (words: readonly string[]): string =>
  words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} and ${words.at(-1)}`;
