import type { ChemistryLine } from "../chem/chemistry.ts";
import type { Db } from "../db/client.ts";
import { doubtOf, readLines } from "../db/line-reading.ts";
import type { ChemistryBody } from "../wire/chemistry-body.ts";
import type { Fault } from "../wire/problems.tsx";

/**
 * A line as it was sent, its material found. `material` is what answers call it: a slug, or the name
 * of one that was sent along; `pinned` is what it is on the shelf, null where it is not there.
 */
export type SentLine = ChemistryLine & {
  material: string;
  pinned: { materialId: string; analysisId: string | null } | null;
};

/** The lines of a computing call, and each whose material is not sure, with its place. */
export async function resolveLines(
  db: Db,
  lines: ChemistryBody["lines"],
  prefix = "",
): Promise<{ lines: SentLine[]; faults: Fault[] }> {
  const words = lines.map(({ material }) => ({
    material: typeof material === "string" ? material : "",
  }));
  const readings = await readLines(
    db,
    words.filter(({ material }) => material !== ""),
  );
  const byWord = new Map(readings.map((reading) => [reading.material, reading]));
  const faults: Fault[] = [];
  const resolved = lines.map(({ material, part, amount }, row): SentLine => {
    if (typeof material !== "string") {
      const { name, analysis } = material;
      const key = JSON.stringify([name, analysis]);
      return { key, name, material: name, part, amount, analysis, pinned: null };
    }
    const reading = byWord.get(material);
    if (reading?.match.kind === "sure") {
      const { id, slug, name, inUse } = reading.match.material;
      return {
        key: inUse?.id ?? id,
        name,
        material: slug,
        part,
        amount,
        analysis: inUse?.analysis ?? null,
        analysedOn: inUse?.measuredOn ?? undefined,
        pinned: { materialId: id, analysisId: inUse?.id ?? null },
      };
    }
    faults.push({
      path: `${prefix}lines.${row}.material`,
      says: (reading && doubtOf(reading)) ?? "This is needed.",
    });
    return { key: material, name: material, material, part, amount, analysis: null, pinned: null };
  });
  return { lines: resolved, faults };
}

/** The material of the shelf that a sent line is, where it is one. */
export const shelvedId = ({ pinned }: SentLine): string | undefined => pinned?.materialId;
