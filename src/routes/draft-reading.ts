import { faultsOfRequest } from "../chem/chemistry.ts";
import type { Db } from "../db/client.ts";
import { chemistryLines, type Draft } from "../db/drafts.ts";
import { doubtOf, draftLines, faultsOfAmount, readLines } from "../db/line-reading.ts";
import type { Fault } from "../wire/problems.tsx";
import type { RevisionBody } from "../wire/recipe-body.ts";

export type Drafted = { kind: "draft"; draft: Draft } | { kind: "faulty"; faults: Fault[] };

/**
 * A revision as it was sent, with its materials found on the shelf and pinned to their analyses in
 * use, or every fault with its place.
 *
 * @param prefix the path of the revision in the request, with its dot.
 */
export async function draftFrom(db: Db, body: RevisionBody, prefix = ""): Promise<Drafted> {
  const { lines: typed, ...said } = body;
  const readings = await readLines(db, typed);
  const doubts = readings.flatMap((reading, row) => {
    const says = doubtOf(reading);
    return says === undefined ? [] : [{ path: `${prefix}lines.${row}.material`, says }];
  });
  const faults = [
    ...doubts,
    ...typed.flatMap(({ amount }, row) => faultsOfAmount(amount, `${prefix}lines.${row}.amount`)),
  ];
  const lines = draftLines(readings);
  if (!lines || faults.length > 0) return { kind: "faulty", faults };

  const wrong = faultsOfRequest({ lines: chemistryLines(lines) });
  if (wrong.length > 0) {
    return {
      kind: "faulty",
      faults: wrong.map((fault) => ({ ...fault, path: `${prefix}${fault.path}` })),
    };
  }
  return { kind: "draft", draft: { ...said, lines } };
}
