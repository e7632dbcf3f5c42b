import { listAnalyses, type RecordedAnalysis } from "./analyses.ts";
import { type InUse, listInUse } from "./analyses-in-use.ts";
import type { Db } from "./client.ts";
import { type DataSheet, findDataSheets } from "./data-sheets.ts";
import { type Discontinuation, listDiscontinuations } from "./discontinuations.ts";
import { type FoundLot, listLots } from "./lots.ts";
import { type DryGravity, findDryGravities } from "./material-gravities.ts";
import { type LookAlike, listLookAlikes, listNames, type NameElsewhere } from "./material-names.ts";
import { listUses, type MaterialUses } from "./material-uses.ts";
import { type FoundMaterial, findMaterial } from "./materials.ts";
import { listPricesThen, type PriceThen } from "./price-history.ts";
import type { Reader } from "./recipes.ts";

/** New revisions pin the one in use; earlier ones were in use once, and the others wait. */
export type AnalysisIs = "in use" | "earlier" | "waiting";

/** A material with all that its page tells. */
export type MaterialSheet = FoundMaterial & {
  names: NameElsewhere[];
  lookAlikes: LookAlike[];
  /** Newest first. */
  analyses: (RecordedAnalysis & { is: AnalysisIs })[];
  /** How the analysis in use came into use; null where none is. */
  putInUse: InUse | null;
  /** Why it is no longer sold, and since when; null while it is. */
  discontinued: Discontinuation | null;
  uses: MaterialUses;
  /** Newest first; null for a visitor, whom the studio's prices do not concern. */
  lots: FoundLot[] | null;
  /** All that it ever cost, newest first; null for a visitor. */
  prices: PriceThen[] | null;
  /** Null where none is on record. */
  dryGravity: DryGravity | null;
  /** Null where nobody put it down. */
  dataSheet: DataSheet | null;
};

const mostUses = 100;

/** A material by its slug, with the recipes that the reader may know of. */
export async function findMaterialSheet(
  db: Db,
  { slug, reader }: { slug: string; reader: Reader },
): Promise<MaterialSheet | undefined> {
  const material = await findMaterial(db, slug);
  if (!material) return undefined;
  const { id: materialId, name } = material;
  const names = (await listNames(db, [materialId])).get(materialId) ?? [];
  const words = [name, ...names.map((elsewhere) => elsewhere.name)];
  const uses = await listInUse(db, materialId);
  const everInUse = new Set(uses.map(({ analysisId }) => analysisId));
  const [said] = await listDiscontinuations(db, materialId);
  const is = (analysisId: string): AnalysisIs => {
    if (analysisId === material.inUse?.id) return "in use";
    return everInUse.has(analysisId) ? "earlier" : "waiting";
  };
  return {
    ...material,
    names,
    lookAlikes: await listLookAlikes(db, { materialId, words }),
    analyses: (await listAnalyses(db, materialId)).map((row) => ({ ...row, is: is(row.id) })),
    putInUse: uses[0] ?? null,
    discontinued: said && !said.stillSold ? said : null,
    uses: await listUses(db, { materialId, reader, limit: mostUses }),
    lots: reader ? await listLots(db, materialId) : null,
    prices: reader ? await listPricesThen(db, materialId) : null,
    dryGravity: (await findDryGravities(db, [materialId])).get(materialId) ?? null,
    dataSheet: (await findDataSheets(db, [materialId])).get(materialId) ?? null,
  };
}
