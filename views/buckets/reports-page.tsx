import { type Fault, FaultSummary, faultAt, TextArea } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import { type ShownReport, troubles } from "./care-types.ts";
import { troubleWords } from "./report-buttons.tsx";

type ReportsPageProps = {
  bucket: { id: string; name: string };
  /** Newest first. */
  reports: readonly ShownReport[];
  isEmpty: boolean;
  mayAnswer: boolean;
  note: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What people noticed of a bucket and what was done, and a report with more words. */
export const ReportsPage = (props: ReportsPageProps) => {
  const { bucket, reports, isEmpty, mayAnswer } = props;
  return (
    <article>
      <h1>Reports of {bucket.name}</h1>
      <FaultSummary faults={props.faults} />
      {isEmpty ? null : <ReportForm {...props} />}
      <h2>What was reported</h2>
      {reports.length === 0 ? <p>Nobody has reported anything.</p> : null}
      <ol class="notes">
        {reports.map((report) => (
          <Report report={report} mayAnswer={mayAnswer} />
        ))}
      </ol>
      <p>
        <a href={`/buckets/${bucket.id}`}>Back to {bucket.name}</a>
      </p>
    </article>
  );
};

const ReportForm = ({ bucket, note, faults, idempotencyKey }: ReportsPageProps) => (
  <form method="post" action={`/buckets/${bucket.id}/reports`}>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <TextArea
      label="What you saw"
      name="note"
      rows={3}
      maxlength={1000}
      value={note}
      hint="As much as you like, or nothing."
      fault={faultAt(faults, "note")}
    />
    <p class="report-taps">
      {troubles.map((trouble) => (
        <button type="submit" class="quiet" name="trouble" value={trouble}>
          {troubleWords[trouble]}
        </button>
      ))}
    </p>
  </form>
);

type ReportProps = { report: ShownReport; mayAnswer: boolean };

const Report = ({ report, mayAnswer }: ReportProps) => {
  const { id, trouble, note, by, at, answer } = report;
  return (
    <li class="note">
      <p class="note-on">
        {troubleWords[trouble]}
        {answer ? "" : ": open"}
      </p>
      {note === "" ? null : <p class="note-text">{note}</p>}
      <p class="note-by">
        {by}, <When at={at} clock />
      </p>
      {answer ? (
        <p>
          Done: {answer.done} ({answer.by}, <When at={answer.at} />)
        </p>
      ) : null}
      {!answer && mayAnswer ? (
        <p class="actions">
          <a class="button quiet" href={`/bucket-reports/${id}/answer`}>
            Say what was done
          </a>
        </p>
      ) : null}
    </li>
  );
};

type ReportAnswerProps = {
  bucket: { id: string; name: string };
  report: ShownReport;
  done: string;
  faults: readonly Fault[];
};

/** The form that ends a report. */
export const ReportAnswerForm = ({ bucket, report, done, faults }: ReportAnswerProps) => (
  <article>
    <h1>What was done</h1>
    <FaultSummary faults={faults} />
    <p>
      {report.by} reported {bucket.name}, <When at={report.at} clock />:{" "}
      {troubleWords[report.trouble].toLowerCase()}.
    </p>
    {report.note === "" ? null : <p class="note-text">{report.note}</p>}
    {report.answer ? (
      <p>
        Done: {report.answer.done} ({report.answer.by}, <When at={report.answer.at} />)
      </p>
    ) : (
      <form method="post" action={`/bucket-reports/${report.id}/answer`}>
        <TextArea
          label="What was done about it"
          name="done"
          required
          rows={3}
          maxlength={1000}
          value={done}
          hint="Such as: sieved twice at 80 mesh; or: thrown out by local rules. A bucket that was put on hold stays so until you open it on its page."
          fault={faultAt(faults, "done")}
        />
        <p class="actions">
          <button type="submit">End the report</button>
        </p>
      </form>
    )}
    <p>
      <a href={`/buckets/${bucket.id}/reports`}>Back to the reports</a>
    </p>
  </article>
);
