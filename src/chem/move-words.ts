import type { Move } from "./moves.ts";

/** What moved, as a phrase: "SiO2 in the unity formula from 3.000 to 3.072". */
export function moveWords(move: Move): string {
  switch (move.kind) {
    case "unity":
      return `${move.oxide} in the unity formula from ${move.before.toFixed(3)} to ${move.after.toFixed(3)}`;
    case "expansion":
      return `expansion by ${move.model} from ${move.before.toFixed(2)} to ${move.after.toFixed(2)} · 10⁻⁶/K`;
    case "leachable":
      return `${move.oxide} is new in it, and can leach`;
    case "finding":
      return `the rule “${move.rule}”: ${move.before ?? "nothing found"} before, ${move.after ?? "nothing found"} now`;
  }
}
