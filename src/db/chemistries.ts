import { type Chemistry, engine, type UnityOxide, workOut } from "../chem/chemistry.ts";
import { chemistryLines, type Draft } from "./drafts.ts";
import type { chemistries } from "./schema/index.ts";

/** What the drafted lines come to by the engine of today. The draft must have no faults. */
export const chemistryOf = (draft: Pick<Draft, "lines" | "use" | "cones">): Chemistry =>
  workOut({
    lines: chemistryLines(draft.lines),
    use: draft.use,
    cone: draft.cones.high,
    explain: true,
  });

/** Elements that a laboratory's leach report is asked for; what is only good to know asks for none. */
const leachElementsOf = ({ findings }: Chemistry): string[] => [
  ...new Set(findings.flatMap(({ level, elements }) => (level === "note" ? [] : (elements ?? [])))),
];

/** A revision's chemistry as it is kept beside it, flat for lists and searches and whole for its page. */
export function chemistryRow({
  revisionId,
  draft,
}: {
  revisionId: string;
  draft: Pick<Draft, "lines" | "use" | "cones">;
}): typeof chemistries.$inferInsert {
  const detail = chemistryOf(draft);
  const unity = (oxide: UnityOxide): number | null =>
    detail.unity === null ? null : (detail.unity[oxide]?.value ?? 0);
  return {
    revisionId,
    engine,
    lossPercent: detail.lossOnIgnition.value,
    silicaToAlumina: detail.ratios.silicaToAlumina?.value ?? null,
    alkaliShare: detail.ratios.alkaliShare?.value ?? null,
    unityLi2O: unity("Li2O"),
    unityNa2O: unity("Na2O"),
    unityK2O: unity("K2O"),
    unityMgO: unity("MgO"),
    unityCaO: unity("CaO"),
    unitySrO: unity("SrO"),
    unityBaO: unity("BaO"),
    unityZnO: unity("ZnO"),
    unityPbO: unity("PbO"),
    unityB2O3: unity("B2O3"),
    unityAl2O3: unity("Al2O3"),
    unitySiO2: unity("SiO2"),
    stops: detail.findings.filter((finding) => finding.level === "stop").length,
    leachElements: leachElementsOf(detail),
    detail,
  };
}
