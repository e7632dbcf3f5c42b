import type { Finding, Level } from "../../src/chem/chemistry-types.ts";

const words: Readonly<Record<Level, string>> = { stop: "Stop", caution: "Caution", note: "Note" };

const gravest = (findings: readonly Finding[]): Level | undefined =>
  (["stop", "caution", "note"] as const).find((level) =>
    findings.some((finding) => finding.level === level),
  );

/** What the screen thinks of a point, as a word in a frame: the gravest of what it found. */
export const ScreenWord = ({ findings }: { findings: readonly Finding[] }) => {
  const level = gravest(findings);
  if (!level) return <span class="screen-word">Nothing found</span>;
  const of = findings.filter((finding) => finding.level === level).length;
  return (
    <strong class={`screen-word screen-word-${level}`}>
      {words[level]}
      {of > 1 ? ` × ${of}` : ""}
    </strong>
  );
};

/** How many points the screen stops, in a sentence. */
export function stopsWords(points: readonly { findings: readonly Finding[] }[]): string {
  const stopped = points.filter(({ findings }) => gravest(findings) === "stop").length;
  const all = points.length === 1 ? "The one point" : `All ${points.length} points`;
  if (stopped === 0) return `The screen stops none of the ${points.length} points.`;
  if (stopped === points.length)
    return `${all} have a stop: no use for food, whatever comes of them.`;
  return `${stopped} of ${points.length} points ${stopped === 1 ? "has" : "have"} a stop: no use for food, whatever comes of ${stopped === 1 ? "it" : "them"}.`;
}
