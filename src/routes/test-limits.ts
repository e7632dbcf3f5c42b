import {
  elementWords,
  judgeLeach,
  type LeachJudgement,
  speaksAgainstPassing,
} from "../chem/leach.ts";
import type { FoundTest } from "../db/tests.ts";
import type { Ctx } from "../wire/context.ts";

/** A leach report beside the limits that the studio chose. */
export type TestLimits = {
  /** Whether the studio chose any. */
  chosen: boolean;
  judged: LeachJudgement[];
  /** It is called passed, and a figure of it is above a limit. */
  doubtful: boolean;
};

/** A test with what the studio's limits say of it; null where it is no leach report. */
export function withLimits<
  Test extends Pick<FoundTest, "kind" | "outcome" | "articleClass" | "results">,
>(c: Ctx, test: Test): Test & { limits: TestLimits | null } {
  if (test.kind !== "leach") return { ...test, limits: null };
  const { jurisdictions } = c.var.studio;
  const judged = judgeLeach(test.results, { jurisdictions, articleClass: test.articleClass });
  const doubtful = test.outcome === "passed" && judged.some(speaksAgainstPassing);
  return { ...test, limits: { chosen: jurisdictions.length > 0, judged, doubtful } };
}

/** Why a leach report cannot be called passed here; undefined where nothing speaks against it. */
export function whatSpeaksAgainst(
  c: Ctx,
  { outcome, results, articleClass }: Pick<FoundTest, "outcome" | "results" | "articleClass">,
): string | undefined {
  if (outcome !== "passed") return undefined;
  const { jurisdictions } = c.var.studio;
  const against = judgeLeach(results, { jurisdictions, articleClass }).filter(speaksAgainstPassing);
  if (against.length === 0) return undefined;
  const which = against.map(
    ({ jurisdiction, element, limit }) =>
      `${elementWords[element]} is above the ${limit?.value} ${limit?.unit} of ${jurisdiction.name} for ${limit?.articleClass}`,
  );
  return `By the limits that this studio chose it cannot be called passed: ${which.join("; ")}. Say failed, or unclear with what the laboratory says in the remark.`;
}
