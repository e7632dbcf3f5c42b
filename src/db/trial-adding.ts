import type { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import type { Part } from "../chem/lines.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { foldName } from "./names.ts";
import { trialPoints, trials } from "./schema/index.ts";
import type { Measure, TrialKind } from "./trials.ts";

type NewPoint = {
  n: number;
  shares: number[];
  lines: readonly {
    part: Part;
    materialId: string;
    analysisId: string | null;
    amount: Decimal;
  }[];
};

/** Puts a trial on record, each point with what to weigh. @returns its id. */
export async function addTrial(
  db: Db,
  {
    name,
    kind,
    measure,
    question,
    about,
    points,
    by,
    at,
  }: Act & {
    by: string;
    name: string;
    kind: TrialKind;
    measure: Measure;
    question: Record<string, unknown>;
    about: string;
    points: readonly NewPoint[];
  },
): Promise<string> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    await tx
      .insert(trials)
      .values({ id, name, nameKey: foldName(name), kind, measure, question, about, by, at });
    await tx.insert(trialPoints).values(
      points.map(({ n, shares, lines }) => ({
        trialId: id,
        n,
        shares,
        lines: lines.map((line) => ({ ...line, amount: line.amount.toFixed() })),
      })),
    );
    const detail = { kind, points: points.length };
    const happening = { kind: "trial added", subject: "trial", subjectId: id, detail } as const;
    await appendEvent(tx, { by, at }, happening);
    return id;
  });
}
