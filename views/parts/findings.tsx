import type { Finding, Level } from "../../src/chem/chemistry-types.ts";
import { inDegrees } from "./degrees.ts";

const levelWord: Readonly<Record<Level, string>> = {
  stop: "Stop",
  caution: "Caution",
  note: "Note",
};

const gravity: readonly Level[] = ["stop", "caution", "note"];

/** What the rules found, gravest first; each says its level in a word and where its limit is from. */
export const Findings = ({ findings }: { findings: readonly Finding[] }) =>
  findings.length === 0 ? (
    <p class="findings-none">
      No rule held here found anything to say. That is not a promise: the rules know few faults.
    </p>
  ) : (
    <ul class="findings" aria-label="What the rules found">
      {gravity
        .flatMap((level) => findings.filter((finding) => finding.level === level))
        .map((finding) => (
          <li class={`finding finding-${finding.level}`}>
            <strong class="finding-level">{levelWord[finding.level]}</strong>{" "}
            <span class="finding-says">{inDegrees(finding.says)}</span>{" "}
            <span class="finding-source">{finding.source}</span>
          </li>
        ))}
    </ul>
  );
