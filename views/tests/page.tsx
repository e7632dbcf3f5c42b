import { LeachCaution } from "../parts/cautions.tsx";
import { type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { DayOf } from "../tiles/day.tsx";
import { Withdrawn } from "../tiles/gallery.tsx";
import {
  BeforeAndAfter,
  ReportForm,
  Reports,
  type ShownReport,
  type ShownTestPhoto,
  TestPhotoForm,
} from "./files.tsx";
import { kindWords } from "./kind-words.ts";
import { KindExplained } from "./kinds.tsx";
import { LeachLimits } from "./limits.tsx";
import { OnTile } from "./list.tsx";
import { LeachResults } from "./results.tsx";
import type { ShownTest } from "./types.ts";

export type TestPageProps = {
  test: ShownTest & { reports: readonly ShownReport[]; photos: readonly ShownTestPhoto[] };
  /** Whether the reader may put files with the test and withdraw it. */
  mayChange: boolean;
  /** Whether the reader may have pictures removed for good. */
  mayRemove: boolean;
  faults?: readonly Fault[] | undefined;
  typed?: { why?: string | undefined; alt?: string | undefined; taken?: string | undefined };
};

/** One test: what was done, by whom, what came of it, and what it can and cannot show. */
export const TestPage = ({
  test,
  mayChange,
  mayRemove,
  faults = [],
  typed = {},
}: TestPageProps) => (
  <article>
    <h1>
      {kindWords[test.kind].name} of {test.recipe.name}: {test.outcome}
    </h1>
    {test.withdrawn ? <Withdrawn {...test.withdrawn} /> : null}
    <FaultSummary faults={faults} />
    <Facts test={test} />
    {test.results.length > 0 ? <LeachResults results={test.results} /> : null}
    <LeachLimits limits={test.limits} />
    <Reports testId={test.id} reports={test.reports} />
    <BeforeAndAfter photos={test.photos} mayRemove={mayRemove} />
    <h2>What this test is</h2>
    <KindExplained kind={test.kind} />
    <LeachCaution />
    {mayChange && !test.withdrawn ? (
      <>
        <ReportForm testId={test.id} faults={faults} />
        <TestPhotoForm testId={test.id} faults={faults} typed={typed} />
        <WithdrawalForm testId={test.id} why={typed.why} faults={faults} />
      </>
    ) : null}
  </article>
);

const Facts = ({ test }: { test: ShownTest }) => (
  <dl class="tile-facts">
    <div>
      <dt>Recipe</dt>
      <dd>
        <a href={`/recipes/${test.recipe.slug}`}>{test.recipe.name}</a>,{" "}
        <a href={`/recipes/${test.recipe.slug}/revisions/${test.number}`}>revision {test.number}</a>
        <OnTile tile={test.tile} />.
      </dd>
    </div>
    <Fact name="How it was made" says={test.method} />
    <Fact name="Laboratory" says={test.laboratory} />
    <Fact name="Report" says={test.report} />
    <Fact name="Article class" says={test.articleClass} />
    <Fact name="Remark" says={test.remark} />
    <div>
      <dt>Put on record by</dt>
      <dd>
        {test.by.name}, <DayOf at={test.at} />
      </dd>
    </div>
  </dl>
);

const Fact = ({ name, says }: { name: string; says: string }) =>
  says === "" ? null : (
    <div>
      <dt>{name}</dt>
      <dd>{says}</dd>
    </div>
  );

type WithdrawalFormProps = { testId: string; why: string | undefined; faults: readonly Fault[] };

const WithdrawalForm = ({ testId, why, faults }: WithdrawalFormProps) => {
  const fault = faults.find(({ path }) => path === "why")?.says;
  return (
    <details open={fault !== undefined}>
      <summary>Withdraw this test</summary>
      <form method="post" action={`/tests/${testId}/withdrawal`}>
        <TextArea
          label="Why it does not count"
          name="why"
          required
          maxlength={1000}
          value={why}
          hint="Such as: it was another tile. The test stays, struck through, with your reason. This cannot be undone."
          fault={fault}
        />
        <p class="actions">
          <button type="submit">Withdraw the test</button>
        </p>
      </form>
    </details>
  );
};
