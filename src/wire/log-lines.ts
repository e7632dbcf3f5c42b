import type { LogPage, Unit } from "./log-page.ts";

/** Minutes and a temperature, apart by a comma, a semicolon or a tab, perhaps in quotes. */
const readingLine =
  /^[ ]*"?([+-]?\d+(?:\.\d*)?(?:[eE][+-]?\d+)?)"?[ ]*[,;\t][ ]*"?([+-]?\d+(?:\.\d*)?(?:[eE][+-]?\d+)?)"?[ ]*$/;

const number = /^[+-]?(\d+([.,]\d*)?([eE][+-]?\d+)?|nan|inf(inity)?)$/i;

/** Reads lines as a logger writes them, a piece of text after the other. */
export type LineReader = { take: (text: string) => void; end: () => void };

/**
 * A reader of CSV: a reading a line, a heading or none. Pieces may end anywhere, in the middle of a
 * line too, and no more than a line of them is kept.
 *
 * @param unit what the sender says; a heading that says otherwise is a fault.
 */
export function openLineReader(page: LogPage, unit: Unit | undefined): LineReader {
  let [rest, line, begun] = ["", 0, false];
  const takeLine = (typed: string) => {
    line++;
    const read = readingLine.exec(typed);
    if (read) {
      begun = true;
      page.take(`Line ${line}`, "readings", Number(read[1]), Number(read[2]));
      return;
    }
    const written = typed.trim();
    if (written === "") return;
    const says = begun || !isHeading(written) ? sayLine(written) : heading(page, written, unit);
    begun = true;
    if (says !== undefined) page.refuse(`Line ${line}`, "readings", says);
  };
  const takeLines = (text: string) => {
    let from = 0;
    for (let end = text.indexOf("\n"); end >= 0; end = text.indexOf("\n", from)) {
      takeLine(text.slice(from, end));
      from = end + 1;
    }
    rest = text.slice(from, from + longestLine);
  };
  return {
    take(text) {
      const joined = rest + text;
      // The mate of a carriage return at the very end may be in the next piece.
      const held = joined.endsWith("\r") ? "\r" : "";
      const whole = held === "" ? joined : joined.slice(0, -1);
      takeLines(whole.includes("\r") ? whole.replace(/\r\n?/g, "\n") : whole);
      rest += held;
    },
    end() {
      const last = rest.replace(/\r$/, "");
      rest = "";
      if (last !== "") takeLine(last);
    },
  };
}

/** No reading is longer; what is gets a fault anyway. */
const longestLine = 1000;

const cellsOf = (written: string): string[] =>
  written
    .replace(/^\uFEFF/, "")
    .split(/[,;\t]/)
    .map((cell) => cell.trim().replace(/^"(.*)"$/, "$1"));

/** A heading is words in every column. */
const isHeading = (written: string): boolean =>
  cellsOf(written).every((cell) => cell !== "" && !number.test(cell));

/** Takes the unit from a heading. @returns what is wrong with it, if anything. */
function heading(page: LogPage, written: string, said: Unit | undefined): string | undefined {
  const [when = "", heat = "", ...more] = cellsOf(written);
  if (heat === "" || more.length > 0) return sayLine(written);
  if (!/min/i.test(when)) {
    return `the first column is headed “${when.slice(0, 40)}”, and it has to be minutes since the start, headed “minutes”.`;
  }
  const found = unitOf(heat);
  if (found === undefined) {
    return `the second column is headed “${heat.slice(0, 40)}”, which does not tell °C from °F. Head it “celsius” or “fahrenheit”.`;
  }
  if (said !== undefined && said !== found)
    return `the heading says °${found}, and you said °${said}. Keep the right one.`;
  page.setUnit(found);
  return undefined;
}

function unitOf(heat: string): Unit | undefined {
  if (/fahrenheit|(^|[^a-z])f([^a-z]|$)/i.test(heat)) return "F";
  return /celsius|centigrade|(^|[^a-z])c([^a-z]|$)/i.test(heat) ? "C" : undefined;
}

const sayLine = (written: string): string => {
  const shown = `“${written.slice(0, 40)}” is not minutes and a temperature, such as 615,1222.`;
  return /\d,\d+[;\t]|[;\t]\s*-?\d+,\d/.test(written)
    ? `${shown} Write decimals with a point.`
    : shown;
};
