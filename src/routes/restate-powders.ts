import { standingIn } from "../chem/not-this-lot.ts";
import { foldName } from "../db/names.ts";
import { findNamesIn, type NameThere } from "../db/names-in-region.ts";
import { findNewestLotAnalyses } from "../db/newest-lot-analyses.ts";
import type { Ctx } from "../wire/context.ts";
import type { RestateBody } from "../wire/restate-body.ts";
import type { OnShelf, ShelfRead, Target } from "./restate-reading.ts";

/** The shelf by the analyses that were asked for; those of the newest lots are for people of the studio. */
export async function byAnalyses(
  c: Ctx,
  { from }: RestateBody,
  read: ShelfRead,
): Promise<ShelfRead> {
  if (from === "inUse") return read;
  if (!c.var.viewer) return { ...read, faults: [{ path: "from", says: onlyMembers }] };
  const ids = read.shelf.flatMap(({ materialId }) => materialId ?? []);
  const newest = await findNewestLotAnalyses(c.var.db, ids);
  const shelf = read.shelf.map((each): OnShelf => {
    const found = each.materialId === undefined ? undefined : newest.get(each.materialId);
    if (!found) return each;
    const { id, source, measuredOn, analysis } = found.analysis;
    const used = { source, measuredOn, is: found.is };
    return found.is === "of the lot"
      ? { ...each, analysis, analysisKey: id, used }
      : { ...each, analysis: standingIn(analysis), analysisKey: `${id} ${found.is}`, used };
  });
  return { ...read, shelf };
}

const onlyMembers =
  "What was bought is for people of the studio. Sign in, or go by the analyses in use.";

/** What is wrong with the region that was asked for, if anything. */
export function faultsOfRegion(
  { region }: Pick<RestateBody, "region">,
  regions: readonly string[],
) {
  const isThat = (known: string) => foldName(known) === foldName(region ?? "");
  if (region === undefined || regions.some(isThat)) return [];
  const known = regions.length > 0 ? `One of: ${regions.join(", ")}.` : "No region is, so far.";
  return [{ path: "region", says: `No powder has a name for “${region}” on record. ${known}` }];
}

/** What the powders of a shelf and of the additions are called there, by what the request calls them. */
export async function calledThere(
  c: Ctx,
  { region }: RestateBody,
  { shelf, additions }: { shelf: readonly OnShelf[]; additions: Target["additions"] },
): Promise<ReadonlyMap<string, NameThere | null> | undefined> {
  if (region === undefined) return undefined;
  const ids = new Map([
    ...shelf.map(({ key, materialId }) => [key, materialId] as const),
    ...additions.map(({ material, pinned }) => [material, pinned?.materialId] as const),
  ]);
  const known = [...ids.values()].flatMap((id) => id ?? []);
  const names = await findNamesIn(c.var.db, { region, materialIds: known });
  return new Map([...ids].map(([key, id]) => [key, (id && names.get(id)) || null]));
}
