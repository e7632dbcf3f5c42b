import { toCelsius } from "../chem/cone-tables.ts";
import {
  coldestCelsius,
  type FiringLog,
  hottestCelsius,
  longestMinutes,
  openLogBook,
} from "../chem/firing-log.ts";
import type { Fault } from "./problems.tsx";

export type Unit = "C" | "F";

/** What came of an upload: the readings in order, or what is wrong with it. */
export type LogRead =
  | { kind: "read"; log: FiringLog; received: number }
  | { kind: "faulty"; faults: Fault[] }
  | { kind: "too-many" };

/** Collects readings while they come in, judges each, and remembers the first faults. */
export type LogPage = {
  /** The unit that temperatures come in from here on. */
  setUnit: (unit: Unit) => void;
  /** @param place how a fault names the reading: “Line 7”. */
  take: (place: string, path: string, minutes: number, temperature: number) => void;
  refuse: (place: string, path: string, says: string) => void;
  read: () => LogRead;
};

const mostFaults = 10;

/** A page that nothing is written on yet. */
export function openLogPage(given: Unit | undefined): LogPage {
  const book = openLogBook();
  const faults: Fault[] = [];
  let [unit, more, full] = [given ?? "C", 0, false];
  const refuse: LogPage["refuse"] = (place, path, says) => {
    if (faults.length < mostFaults) faults.push({ path, says: `${place}: ${says}` });
    else more++;
  };
  return {
    setUnit: (found) => {
      unit = found;
    },
    refuse,
    take(place, path, minutes, temperature) {
      const celsius = unit === "F" ? toCelsius(temperature) : temperature;
      const wild = wildness(minutes, celsius);
      if (wild !== undefined) refuse(place, path, `${wild(minutes, temperature, unit)}.`);
      else if (!book.add(minutes, celsius)) full = true;
    },
    read() {
      if (full) return { kind: "too-many" };
      if (faults.length > 0) return { kind: "faulty", faults: [...faults, ...sayMore(more)] };
      if (book.count() === 0) return { kind: "faulty", faults: [noReadings] };
      return { kind: "read", log: book.log(), received: book.count() };
    },
  };
}

const noReadings = {
  path: "readings",
  says: "No readings came. One line each: minutes since the start, then the temperature, as in 615,1222.",
};

const sayMore = (more: number): Fault[] =>
  more === 0 ? [] : [{ path: "readings", says: `And ${more} more like these.` }];

type Say = (minutes: number, temperature: number, unit: Unit) => string;

/** What is wrong with a reading that no kiln gives, if anything. */
function wildness(minutes: number, celsius: number): Say | undefined {
  if (!Number.isFinite(minutes) || !Number.isFinite(celsius)) return () => "this is no number";
  if (minutes < 0) return (when) => `minute ${when} lies before the start of the firing`;
  if (minutes > longestMinutes)
    return (when) => `minute ${when} is years on. Count minutes from the start of the firing`;
  if (celsius < coldestCelsius)
    return (_, heat, unit) => `${heat} °${unit} is below ${coldestCelsius} °C`;
  if (celsius > hottestCelsius)
    return (_, heat, unit) => `${heat} °${unit} is over ${hottestCelsius} °C`;
  return undefined;
}
