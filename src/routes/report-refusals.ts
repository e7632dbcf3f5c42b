import type { ReadReport } from "../work/reports.ts";

type Refused = Exclude<ReadReport, { kind: "read" }>;

type Refusal = { status: 413 | 415 | 422; title: string; says: string };

/** Why a laboratory's report was not kept and what to do about it. */
export function refusalOfReport(refused: Refused): Refusal {
  switch (refused.kind) {
    case "empty":
      return unreadable("The file is empty. Choose the report again.");
    case "cut-off":
      return unreadable(
        "The PDF has no end: perhaps it did not arrive whole. Send it again, or ask the laboratory for it again.",
      );
    case "too-large":
      return {
        status: 413,
        title: "Too large",
        says: "The report is over 20 MB. Ask the laboratory for a smaller file.",
      };
    case "not-pdf":
      return {
        status: 415,
        title: "Not a report for here",
        says:
          refused.is === "a picture"
            ? "This is a picture, whatever its name says. A report is a PDF; a picture of the tile goes below."
            : `This is no PDF but ${refused.is}, whatever its name says. Ask the laboratory for the report as a PDF.`,
      };
  }
}

const unreadable = (says: string): Refusal => ({
  status: 422,
  title: "The report could not be taken",
  says,
});
