/**
 * What the search for a shelf works on: numbers and words only, so that it can be handed to another
 * thread as it is.
 */
export type PlanPowder = {
  /** Its slug, or the name it was sent under; no two are the same. */
  readonly label: string;
  /** How people call it. */
  readonly name: string;
  /** Moles in 100 g as weighed, by the place of the oxide in the order of display. */
  readonly moles: readonly number[];
  /** Millionths of the currency for a gram; null where nothing was bought in that currency. */
  readonly microsPerGram: number | null;
  /** What the pack of its newest lot cost, in ten-thousandths of the currency; null likewise. */
  readonly pack: number | null;
};

/** A recipe as a shelf has to reach it. */
export type PlanTarget = {
  /** Its slug, or the name it was sent under. */
  readonly label: string;
  readonly name: string;
  /** Moles of each oxide for each mole of flux, of the base alone; null where it has no flux. */
  readonly wanted: readonly number[] | null;
};

export type PlanProblem = {
  readonly powders: readonly PlanPowder[];
  readonly targets: readonly PlanTarget[];
  /** How far an oxide may be off, as a share of what is wanted. */
  readonly within: number;
};

/** A base from the shelf: parts by weight at a base of 100, as text, and its largest miss. */
export type PlanMix = { lines: { powder: number; amount: string }[]; worst: number };

export type PlanReached = PlanMix & { target: number };
export type PlanMissed = { target: number; because: string };
