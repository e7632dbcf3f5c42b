import { whyUnanswered } from "./unanswered.ts";

/**
 * Carries migrations out, all of those that are still to come in one transaction.
 *
 * @throws a sentence for the person at the terminal: the database does not answer, or refused a statement.
 */
export async function bringUpToDate(migrate: () => Promise<void>): Promise<void> {
  try {
    await migrate();
  } catch (error) {
    throw new Error(said(error), { cause: error });
  }
}

function said(error: unknown): string {
  if (!(error instanceof Error)) return String(error);
  const first = firstCause(error);
  const why = first.message || String((first as { code?: unknown }).code);
  if (whyUnanswered(error) === "away") return `The database does not answer: ${why}.`;
  if (whyUnanswered(error) === "full") return `The database's disk is full: ${why}.`;
  const { query } = error as { query?: unknown };
  const at = typeof query === "string" ? `, at “${beginningOf(query)}”` : "";
  return (
    `The database cannot be brought up to date: ${why}${at}. It is as it was before, and nobody is ` +
    "served. Start the version that ran before, and tell whoever makes this one."
  );
}

const firstCause = (error: Error): Error =>
  error.cause instanceof Error ? firstCause(error.cause) : error;

const beginningOf = (query: string): string => {
  const line = query.trim().replace(/\s+/g, " ");
  return line.length > 120 ? `${line.slice(0, 120)}…` : line;
};
