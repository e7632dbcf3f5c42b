import { and, asc, eq, inArray } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import {
  isPictureRemoved,
  keepPicture,
  type NewPhoto,
  type NewPicture,
  whyRemoved,
} from "./pictures.ts";
import { pictures, trialPhotos } from "./schema/index.ts";

/** A picture of what came of a point; of one that was removed only that it was. */
export type TrialPhoto = {
  id: string;
  sha256: string;
  alt: string;
  width: number;
  height: number;
  removed: boolean;
};

/** Hangs a picture on what came of a point; the same picture hangs there once. */
export async function addTrialPhoto(
  db: Db,
  params: Act & {
    by: string;
    trialId: string;
    n: number;
    resultId: string;
    picture: NewPicture;
    alt: string;
  },
): Promise<NewPhoto> {
  const { trialId, n, resultId, picture, alt, by, at } = params;
  const { sha256 } = picture;
  return db.transaction(async (tx) => {
    await keepPicture(tx, picture, { by, at });
    const why = await whyRemoved(tx, sha256);
    if (why !== undefined) return { kind: "removed", why };
    const [hung] = await tx
      .select({ id: trialPhotos.id })
      .from(trialPhotos)
      .where(and(eq(trialPhotos.resultId, resultId), eq(trialPhotos.sha256, sha256)));
    if (hung) return { kind: "there-already", id: hung.id };
    const id = uuidv7();
    await tx.insert(trialPhotos).values({ id, resultId, sha256, alt, by, at });
    const detail = { photo: id, sha256, point: n };
    const happening = {
      kind: "trial photo added",
      subject: "trial",
      subjectId: trialId,
      detail,
    } as const;
    await appendEvent(tx, { by, at }, happening);
    return { kind: "added", id };
  });
}

/** The pictures of some results, by the result, in the order that they were hung. */
export async function listTrialPhotos(
  db: Db,
  resultIds: readonly string[],
): Promise<Map<string, TrialPhoto[]>> {
  const hung = new Map<string, TrialPhoto[]>();
  if (resultIds.length === 0) return hung;
  const rows = await db
    .select({
      resultId: trialPhotos.resultId,
      id: trialPhotos.id,
      sha256: trialPhotos.sha256,
      alt: trialPhotos.alt,
      width: pictures.width,
      height: pictures.height,
      removed: isPictureRemoved(trialPhotos.sha256),
    })
    .from(trialPhotos)
    .innerJoin(pictures, eq(pictures.sha256, trialPhotos.sha256))
    .where(inArray(trialPhotos.resultId, [...resultIds]))
    .orderBy(asc(trialPhotos.id));
  for (const { resultId, ...photo } of rows)
    hung.set(resultId, [...(hung.get(resultId) ?? []), photo]);
  return hung;
}
