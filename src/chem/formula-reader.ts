import type { ElementSymbol } from "./elements.ts";

/** `at` counts characters from 0; `says` tells what to change. */
export type Unreadable = { kind: "unreadable"; at: number; says: string };

/** Where reading has got to: the text, the next character, how many brackets are open. */
export type Reader = {
  readonly text: string;
  at: number;
  depth: number;
  readonly firstAt: Map<ElementSymbol, number>;
};
export type Atoms = Map<ElementSymbol, number>;

/** Stops reading at a character, with the sentence that says why. */
export const unreadable = (reader: Reader, says: string, at = reader.at): Unreadable => ({
  kind: "unreadable",
  at,
  says,
});

const isDigit = (character: string | undefined): boolean =>
  character !== undefined && character >= "0" && character <= "9";

export const brackets: Readonly<Record<string, string>> = { "(": ")", "[": "]", "{": "}" };

const mostCoefficient = 10_000;
const mostSubscript = 1_000;

/** The whole number after a symbol or bracket; 1 where there is none. */
export function subscript(reader: Reader): number | Unreadable {
  const start = reader.at;
  while (isDigit(reader.text[reader.at])) reader.at++;
  if (reader.at === start) return 1;
  const count = Number(reader.text.slice(start, reader.at));
  if (reader.text.charAt(start) === "0") {
    return unreadable(reader, "A subscript does not begin with 0. Was the letter O meant?", start);
  }
  if (count <= mostSubscript) return count;
  return unreadable(reader, `A subscript is at most ${mostSubscript}.`, start);
}

/** The number before a part, decimals allowed; 1 where there is none. */
export function readCoefficient(reader: Reader): number | Unreadable {
  const [start, { text }] = [reader.at, reader];
  while (isDigit(text[reader.at])) reader.at++;
  if (reader.at === start) return 1;
  if (text[reader.at] === "." && isDigit(text[reader.at + 1])) {
    reader.at++;
    while (isDigit(text[reader.at])) reader.at++;
  }
  const digits = text.slice(start, reader.at);
  const coefficient = Number(digits);
  if (text[reader.at] === ",") return unreadable(reader, whatIsWrong(reader));
  if (coefficient === 0) return unreadable(reader, "A coefficient is above 0.", start);
  if (coefficient > mostCoefficient || (digits.split(".")[1]?.length ?? 0) > 6) {
    const says = `A coefficient is at most ${mostCoefficient}, with at most 6 decimals.`;
    return unreadable(reader, says, start);
  }
  return coefficient;
}

/** What is wrong with the next character, and what to write instead. */
export function whatIsWrong({ text, at }: Reader): string {
  const next = text.charAt(at);
  if (next === "") return "The formula stops here; a part such as SiO2 is missing.";
  if (/\s/.test(next)) return "Leave out the space inside a part, or put · between two parts.";
  if (next === ",") return "Write decimals with a full stop and join parts with ·.";
  if (/[a-z]/.test(next)) return "Symbols begin with a capital letter, as in Na2O.";
  if (Object.values(brackets).includes(next)) return `Nothing opened this ${next}.`;
  return `${next} has no place in a formula: join parts with ·, as in K2O·Al2O3·6SiO2.`;
}
