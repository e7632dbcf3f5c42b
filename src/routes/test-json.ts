import type { LeachJudgement } from "../chem/leach.ts";
import type { FoundTest, TestResult } from "../db/tests.ts";
import type { TestLimits } from "./test-limits.ts";

/** A test as the recipe's JSON and its own tell it: figures as decimal strings, in the report's unit. */
export const testJson = (test: FoundTest & { limits: TestLimits | null }) => ({
  id: test.id,
  recipe: test.recipe,
  revision: test.number,
  tile: test.tile === "unknown" ? null : test.tile,
  kind: test.kind,
  method: test.method,
  laboratory: test.laboratory,
  results: test.results.map(resultJson),
  articleClass: test.articleClass,
  outcome: test.outcome,
  limits: test.limits?.judged.map(limitJson) ?? [],
  report: test.report,
  remark: test.remark,
  by: test.by,
  at: test.at.toISOString(),
  withdrawn: test.withdrawn && { ...test.withdrawn, at: test.withdrawn.at.toISOString() },
});

const resultJson = ({ value, detectionLimit, ...result }: TestResult) => ({
  ...result,
  value: value.toFixed(),
  detectionLimit: detectionLimit?.toFixed() ?? null,
});

const limitJson = ({ jurisdiction, element, limit, is, says }: LeachJudgement) => ({
  jurisdiction: jurisdiction.id,
  element,
  is,
  says,
  limit: limit && {
    value: limit.value,
    unit: limit.unit,
    articleClass: limit.articleClass,
    bounds: limit.bounds,
    aggregate: limit.aggregate,
    source: limit.source,
    edition: limit.edition,
    how: limit.how,
  },
});
