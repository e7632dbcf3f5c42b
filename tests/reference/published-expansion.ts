import records from "./expansion-factors.json" with { type: "json" };

/** One printed or remembered factor; `value` is a text where it depends on the whole glass. */
export type FactorRecord = {
  model: string;
  oxide: string;
  value: number | string;
  unit: string;
  source: string;
  how: string;
  confidence: string;
  note?: string;
};

/** A sum worked out by hand from the factors: the glass, and its answer in 1e-7/K. */
export type WorkedSum = {
  id: string;
  input: Record<string, number>;
  input_unit: string;
  value: number | { cubical: number; linear: number };
};

const all = records as object[];
export const factorRecords = all.filter(
  (record): record is FactorRecord => "oxide" in record && "unit" in record,
);
export const workedSums = all.filter(
  (record): record is WorkedSum => "input" in record && "value" in record,
);

/** What the program calls each model of the records. */
export const idOfModel: Readonly<Record<string, string>> = {
  "Winkelmann & Schott 1894": "winkelmann-schott",
  "English & Turner 1927/29": "english-turner",
  "Mayer & Havas 1911": "mayer-havas",
  Appen: "appen",
  "Hall 1930": "hall",
};
