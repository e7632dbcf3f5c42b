/** One printed or computed figure held against what the chemistry gives. */
export type Check = { what: string; tolerance: number; deviation: number };

/** Checks of one kind from one source. `how`: looked up, computed, from memory or common practice. */
export type CheckFamily = {
  name: string;
  source: string;
  how: string;
  unit: string;
  checks: readonly Check[];
  /** What of the source is left out, and why. */
  leftOut?: string;
};

/** The largest of some deviations; 0 of none. */
export const worst = (deviations: readonly number[]): number =>
  deviations.reduce((most, each) => Math.max(most, Math.abs(each)), 0);

/** How far values lie from printed ones, name by name; a name that is missing counts as 0. */
export const offBy = (
  values: Readonly<Record<string, number | undefined>>,
  printed: Readonly<Record<string, number>>,
): number => worst(Object.entries(printed).map(([name, value]) => (values[name] ?? 0) - value));
