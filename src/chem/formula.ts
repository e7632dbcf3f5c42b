import { type ElementSymbol, isElement } from "./elements.ts";
import {
  type Atoms,
  brackets,
  type Reader,
  readCoefficient,
  subscript,
  type Unreadable,
  unreadable,
  whatIsWrong,
} from "./formula-reader.ts";

export type { Unreadable } from "./formula-reader.ts";

/**
 * `elements` are moles of atoms in one mole of what is written, `firstAt` where each symbol first
 * stands. `at` counts characters from 0; `says` tells what to change.
 */
export type Formula =
  | {
      kind: "formula";
      elements: Map<ElementSymbol, number>;
      firstAt: Map<ElementSymbol, number>;
    }
  | Unreadable;

const longest = 200;
const deepest = 8;
const mostAtoms = 1_000_000;

/**
 * Reads oxide notation or a chemical formula: parts joined by `·`, `.` or `*`, brackets, and a
 * coefficient before a part that may have decimals. Inside a part a full stop separates, so
 * subscripts are whole numbers; subscript digits (₂) are taken too. Linear in the text, which may
 * have 200 characters and brackets 8 deep; nothing is thrown.
 *
 * Worked examples: `K2O·Al2O3·6SiO2` has K 2, Al 2, Si 6, O 16; `0.3Na2O.0.7CaO.0.5B2O3.2.5SiO2`
 * has Na 0.6, Ca 0.7, B 1, Si 2.5, O 7.5.
 */
export function parseFormula(text: string): Formula {
  const plain = text.replace(/[₀-₉]/g, (digit) => String(digit.charCodeAt(0) - 0x2080));
  if (plain.length > longest) {
    return {
      kind: "unreadable",
      at: longest,
      says: `A formula has at most ${longest} characters.`,
    };
  }
  const reader: Reader = { text: plain, at: 0, depth: 0, firstAt: new Map() };
  skipSpaces(reader);
  const elements = parts(reader);
  if ("kind" in elements) return elements;
  if (reader.at < plain.length) return unreadable(reader, whatIsWrong(reader));
  return { kind: "formula", elements, firstAt: reader.firstAt };
}

const separators = "·.*•⋅∙‧・";

function skipSpaces(reader: Reader): void {
  while (/\s/.test(reader.text.charAt(reader.at))) reader.at++;
}

function parts(reader: Reader): Atoms | Unreadable {
  const sum: Atoms = new Map();
  for (;;) {
    const part = onePart(reader);
    if ("kind" in part) return part;
    const fault = add(sum, part, 1);
    if (fault) return unreadable(reader, fault);
    const before = reader.at;
    skipSpaces(reader);
    const next = reader.text.charAt(reader.at);
    if (next === "" || !separators.includes(next)) {
      const closes = next === "" || Object.values(brackets).includes(next);
      if (!closes) reader.at = before;
      return sum;
    }
    reader.at++;
    skipSpaces(reader);
  }
}

function onePart(reader: Reader): Atoms | Unreadable {
  const start = reader.at;
  const coefficient = readCoefficient(reader);
  if (typeof coefficient !== "number") return coefficient;
  skipSpaces(reader);
  const part: Atoms = new Map();
  const groups = reader.at;
  while (startsGroup(reader)) {
    const fault = addGroup(reader, part);
    if (fault) return fault;
  }
  if (reader.at === groups) return unreadable(reader, whatIsWrong(reader));
  const scaled: Atoms = new Map();
  const fault = add(scaled, part, coefficient);
  return fault ? unreadable(reader, fault, start) : scaled;
}

const startsGroup = ({ text, at }: Reader): boolean => {
  const next = text.charAt(at);
  return (next >= "A" && next <= "Z") || next in brackets;
};

function addGroup(reader: Reader, part: Atoms): Unreadable | undefined {
  const start = reader.at;
  const group = reader.text.charAt(start) in brackets ? bracketed(reader) : element(reader);
  if ("kind" in group) return group;
  const count = subscript(reader);
  if (typeof count !== "number") return count;
  const fault = add(part, group, count);
  return fault ? unreadable(reader, fault, start) : undefined;
}

function bracketed(reader: Reader): Atoms | Unreadable {
  const opened = reader.at;
  const closing = brackets[reader.text.charAt(opened)];
  if (reader.depth === deepest) return unreadable(reader, `Brackets go at most ${deepest} deep.`);
  reader.depth++;
  reader.at++;
  skipSpaces(reader);
  const inside = parts(reader);
  if ("kind" in inside) return inside;
  if (reader.text.charAt(reader.at) !== closing) {
    const open = `The bracket opened at character ${opened + 1} is not closed by ${closing}.`;
    return unreadable(reader, open);
  }
  reader.at++;
  reader.depth--;
  return inside;
}

function element(reader: Reader): Atoms | Unreadable {
  const { text, at } = reader;
  const follows = text.charAt(at + 1);
  const symbol = text.slice(at, at + (follows >= "a" && follows <= "z" ? 2 : 1));
  if (!isElement(symbol)) {
    return unreadable(reader, `No element called ${symbol} is held here. Symbols are as in Na2O.`);
  }
  if (!reader.firstAt.has(symbol)) reader.firstAt.set(symbol, at);
  reader.at += symbol.length;
  return new Map([[symbol, 1]]);
}

/** Adds `times` of some atoms; the sentence is there where the sum passes all reason. */
function add(sum: Atoms, atoms: Atoms, times: number): string | undefined {
  for (const [symbol, more] of atoms) {
    const total = (sum.get(symbol) ?? 0) + more * times;
    if (total > mostAtoms)
      return `More than ${mostAtoms} atoms of ${symbol} is no formula of a powder.`;
    // Coefficients have six decimals at most, so this takes off float64 noise alone.
    const count = Math.round(total * 1e9) / 1e9;
    if (count === 0) return `There is too little ${symbol} here to count.`;
    sum.set(symbol, count);
  }
  return undefined;
}
