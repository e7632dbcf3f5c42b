/**
 * Why the database gave no answer though nothing is wrong with what was asked: it is `away`; all its
 * connections were `busy` for as long as anybody waits; it was stopped at a statement that took too `long`;
 * or the disk is `full`.
 */
export type Unanswered = "away" | "busy" | "long" | "full";

/** Nothing was sent to the database: no connection came free in time. */
export class NoConnectionFree extends Error {
  constructor() {
    super("no connection to the database came free in time");
  }
}

/** Of the system, of the driver, and of Postgres (Appendix A, "PostgreSQL Error Codes"). */
const codes: Readonly<Record<string, Unanswered>> = {
  ECONNREFUSED: "away",
  ECONNRESET: "away",
  EHOSTUNREACH: "away",
  ENETUNREACH: "away",
  ENOTFOUND: "away",
  EAI_AGAIN: "away",
  EPIPE: "away",
  ETIMEDOUT: "away",
  CONNECT_TIMEOUT: "away",
  CONNECTION_CLOSED: "away",
  CONNECTION_DESTROYED: "away",
  CONNECTION_ENDED: "away",
  "08000": "away",
  "08001": "away",
  "08003": "away",
  "08004": "away",
  "08006": "away",
  "57P01": "away",
  "57P02": "away",
  "57P03": "away",
  "57P05": "away",
  "25P03": "away",
  "53300": "busy",
  "55P03": "long",
  "57014": "long",
  "53100": "full",
  ENOSPC: "full",
  EDQUOT: "full",
};

/** @returns undefined where the error says something else, such as a fault of ours. */
export function whyUnanswered(error: unknown): Unanswered | undefined {
  if (!(error instanceof Error)) return undefined;
  if (error instanceof NoConnectionFree) return "busy";
  const { code } = error as { code?: unknown };
  return (typeof code === "string" ? codes[code] : undefined) ?? whyUnanswered(error.cause);
}
