import { type DestinationStream, type LevelWithSilent, type Logger, pino } from "pino";

export type Log = Logger;

/**
 * The program's log: a line of JSON for each thing, on the standard output unless told otherwise. It
 * holds no names, no addresses and nothing that was typed.
 */
export const openLog = (
  { logLevel }: { logLevel: LevelWithSilent },
  destination?: DestinationStream,
): Log =>
  pino(
    {
      level: logLevel,
      base: null,
      timestamp: pino.stdTimeFunctions.isoTime,
      formatters: { level: (level) => ({ level }) },
    },
    ...(destination ? [destination] : []),
  );

/** What broke, for the log. */
export type Broke = {
  name: string;
  says?: string;
  /** What the database calls it, and the rule that was broken. */
  code?: string;
  constraint?: string;
  query?: string;
  at: string[];
};

/**
 * An error without the values that were in hand: of one that the database raised its code, its rule
 * and the statement, since its own words quote what somebody typed.
 */
export function whatBroke(error: unknown): Broke {
  if (!(error instanceof Error)) return { name: "thrown", says: typeof error, at: [] };
  const { name, stack = "", cause } = error;
  const at = stack
    .split("\n")
    .filter((line) => /^\s+at /.test(line))
    .map((line) => line.trim());
  const { query } = error as { query?: unknown };
  const raised = [error, cause].find(isRaised);
  if (typeof query !== "string" && !raised) return { name, says: error.message, at };
  return {
    name,
    ...(raised && { code: raised.code }),
    ...(raised && ruleOf(raised)),
    ...(typeof query === "string" && { query }),
    at,
  };
}

type Raised = { code: string; constraint?: unknown; constraint_name?: unknown };

/** Postgres gives every error of its own a code of five signs. */
const isRaised = (error: unknown): error is Raised =>
  error instanceof Error && /^[0-9A-Z]{5}$/.test(String((error as { code?: unknown }).code));

/** The two drivers name the rule that was broken each in their own way. */
function ruleOf({ constraint, constraint_name }: Raised): { constraint?: string } {
  const rule = constraint ?? constraint_name;
  return typeof rule === "string" ? { constraint: rule } : {};
}
