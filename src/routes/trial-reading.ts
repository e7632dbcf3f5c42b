import { type Chemistry, workOut } from "../chem/chemistry.ts";
import { type Cone, isCone } from "../chem/cones.ts";
import { chemistryLines } from "../db/drafts.ts";
import { type FoundTrial, findTrial, type TrialPoint } from "../db/trials.ts";
import type { Ctx } from "../wire/context.ts";

/** A corner as the trial was asked with it. */
type AskedCorner = { says: string; recipe?: string };

type ReadPoint = TrialPoint & {
  at: number[];
  chemistry: Chemistry;
  /** Its lines by name, as pages and the scale read them. */
  named: {
    key: string;
    name: string;
    part: "base" | "addition";
    amount: TrialPoint["lines"][number]["amount"];
  }[];
};

export type ReadTrial = Omit<FoundTrial, "points"> & {
  /** At which its points are judged; null where nobody said. */
  cone: Cone | null;
  corners: AskedCorner[];
  gravities: string[];
  points: ReadPoint[];
};

/** A trial that the reader may know of, with the chemistry of each point by today's engine. */
export async function readTrial(c: Ctx, id: string): Promise<ReadTrial | undefined> {
  const trial = await findTrial(c.var.db, { id, reader: c.var.viewer });
  if (!trial) return undefined;
  const { question } = trial;
  const cone = typeof question.cone === "string" && isCone(question.cone) ? question.cone : null;
  const use = question.use === "decorative" ? "decorative" : "functional";
  const today = c.var.now.toISOString().slice(0, 10);
  return {
    ...trial,
    cone,
    corners: (question.corners as AskedCorner[] | undefined) ?? [],
    gravities: (question.gravities as string[] | undefined) ?? [],
    points: trial.points.map((point) => {
      const lines = chemistryLines(point.lines);
      const named = lines.map(({ key, name, part, amount }) => ({ key, name, part, amount }));
      const chemistry = workOut({ lines, use, today, ...(cone && { cone }) });
      return { ...point, at: point.shares, chemistry, named };
    }),
  };
}
