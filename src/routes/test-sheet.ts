import { TestPage, type TestPageProps } from "../../views/tests/page.tsx";
import { listTestPhotos } from "../db/test-photos.ts";
import { listReports } from "../db/test-reports.ts";
import { findTest } from "../db/tests.ts";
import type { Ctx } from "../wire/context.ts";
import { refuse } from "../wire/problems.tsx";
import { withLimits } from "./test-limits.ts";

/** A test with all that its page shows, found through the reader's scope. */
export async function findWholeTest(c: Ctx, id: string) {
  const { db, viewer } = c.var;
  const test = await findTest(db, { id, reader: viewer });
  if (!test) return undefined;
  const reports = await listReports(db, { testId: test.id });
  const photos = await listTestPhotos(db, { testId: test.id });
  return { ...withLimits(c, test), reports, photos };
}

export type WholeTest = NonNullable<Awaited<ReturnType<typeof findWholeTest>>>;

/** The test that the address names. */
export const findTheTest = (c: Ctx) => findWholeTest(c, c.req.param("id") ?? "");

/** A test's page, with what was typed on it and what is wrong with that. */
export const testSheet = (
  c: Ctx,
  test: WholeTest,
  more: Pick<TestPageProps, "faults" | "typed"> = {},
) => ({
  page: { title: `Test of ${test.recipe.name}: ${test.kind}`, here: "library" as const },
  view: () =>
    TestPage({
      test,
      mayChange: test.mayWithdraw,
      mayRemove: c.var.viewer?.role === "manager",
      ...more,
    }),
});

/** Nothing more is done to a test that was withdrawn. */
export function withdrawnBefore(c: Ctx, test: WholeTest) {
  const detail = `This test was withdrawn before, and that stands: ${test.withdrawn?.why ?? ""} Put the next one on record as a test of its own.`;
  const faults = [{ path: "", says: detail }];
  return refuse(
    c,
    { status: 409, title: "Withdrawn before", detail },
    testSheet(c, test, { faults }),
  );
}
