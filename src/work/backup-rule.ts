const day = 24 * 60 * 60 * 1000;

/**
 * Which backups may go: of the last seven days all stay, then the newest of each of the last four
 * weeks, of each of the last twelve months, and of each year before.
 *
 * Worked example: of one a day over two years 7 + 3 or 4 + 11 or 12 + 1 or 2 stay.
 *
 * @param made when each was made, in any order.
 * @returns those that may go, oldest first.
 */
export function mayGo(made: readonly Date[], now: Date): Date[] {
  const newestFirst = [...made].sort((one, other) => other.getTime() - one.getTime());
  const kept = new Set<string>();
  const going: Date[] = [];
  for (const at of newestFirst) {
    const age = now.getTime() - at.getTime();
    if (age < 7 * day) continue;
    const period = periodOf(at, age);
    if (kept.has(period)) going.push(at);
    kept.add(period);
  }
  return going.reverse();
}

/** One backup of each stays: a week, a month or a year, the further back the longer. */
function periodOf(at: Date, age: number): string {
  if (age < 35 * day) return `week ${Math.floor(at.getTime() / (7 * day))}`;
  return at.toISOString().slice(0, age < 396 * day ? 7 : 4);
}
