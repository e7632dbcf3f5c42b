import type { LeachJudgement } from "../chem/leach.ts";
import type { FoundTest, TestResult } from "../db/tests.ts";
import type { TestLimits } from "./test-limits.ts";
import type { WholeTest } from "./test-sheet.ts";

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

/** A test as its own address tells it, with its report and its pictures. */
export const wholeTestJson = (test: WholeTest) => ({
  ...testJson(test),
  reports: test.reports.map((report) => reportJson(test.id, report)),
  photos: test.photos.map(testPhotoJson),
});

export const reportJson = (testId: string, report: WholeTest["reports"][number]) => ({
  sha256: report.sha256,
  size: report.size,
  by: report.by,
  at: report.at.toISOString(),
  href: `/tests/${testId}/report/${report.sha256}`,
});

export const testPhotoJson = ({ sha256, removed, ...photo }: WholeTest["photos"][number]) => ({
  ...photo,
  sha256,
  removed,
  at: removed ? null : `/photos/${sha256}/full`,
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
