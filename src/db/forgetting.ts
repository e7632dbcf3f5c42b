import { and, asc, eq, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent, type Happening } from "./events.ts";
import { findForgettable, type What } from "./forgettable.ts";
import { revokeInvitesOf } from "./invites.ts";
import { belongs, findPerson, holdManagers } from "./people.ts";
import { revokeRecoveriesBy } from "./recovery-ends.ts";
import {
  people,
  photos,
  signInAttempts,
  testPhotos,
  trialPhotos,
  trialResults,
} from "./schema/index.ts";
import { attemptKey } from "./sign-in-attempts.ts";

export type Forgetting =
  | { kind: "forgotten" }
  | { kind: "before" }
  | { kind: "nothing-there" }
  | { kind: "oneself" }
  | { kind: "not-manager" };

/**
 * Blanks a person, the words of a note or the bytes of a picture. The rows, their digests and who
 * did it and why stay; a person becomes a pseudonym, is signed out everywhere, and links that they
 * made and nobody used are ended.
 */
export async function forget(
  db: Db,
  { what, which: typed, why, by, at }: Act & { by: string; what: What; which: string; why: string },
): Promise<Forgetting> {
  return db.transaction(async (tx) => {
    await holdManagers(tx);
    if ((await findPerson(tx, by))?.role !== "manager") return { kind: "not-manager" };
    const there = await findForgettable(tx, { what, which: typed });
    if (!there) return { kind: "nothing-there" };
    const { which } = there;
    if (there.removal) return { kind: "before" };
    if (what === "person" && which === by) return { kind: "oneself" };

    const happenings = await happeningsOf(tx, { what, which, at });
    await tx.execute(
      sql`select forget(${what}::text, ${which}::text, ${by}::uuid, ${why}::text, ${at.toISOString()}::timestamptz)`,
    );
    for (const happening of happenings) await appendEvent(tx, { by, at }, happening);
    return { kind: "forgotten" };
  });
}

type Going = { what: What; which: string; at: Date };

/** What goes with it, and what the record will say: a picture's removal at each tile that it hangs on and each test. */
async function happeningsOf(tx: Db, { what, which, at }: Going): Promise<Happening[]> {
  switch (what) {
    case "note":
      return [{ kind: "removed", subject: "note", subjectId: which }];
    case "picture": {
      const hung = await tx
        .select({ photo: photos.id, tileId: photos.tileId })
        .from(photos)
        .where(eq(photos.sha256, which))
        .orderBy(asc(photos.id));
      const ofTests = await tx
        .select({ photo: testPhotos.id, testId: testPhotos.testId })
        .from(testPhotos)
        .where(eq(testPhotos.sha256, which))
        .orderBy(asc(testPhotos.id));
      const ofTrials = await tx
        .select({ photo: trialPhotos.id, trialId: trialResults.trialId, point: trialResults.n })
        .from(trialPhotos)
        .innerJoin(trialResults, eq(trialResults.id, trialPhotos.resultId))
        .where(eq(trialPhotos.sha256, which))
        .orderBy(asc(trialPhotos.id));
      return [
        ...hung.map(({ photo, tileId }) => ({
          kind: "photo removed",
          subject: "tile" as const,
          subjectId: tileId,
          detail: { photo, sha256: which },
        })),
        ...ofTests.map(({ photo, testId }) => ({
          kind: "test photo removed",
          subject: "test" as const,
          subjectId: testId,
          detail: { photo, sha256: which },
        })),
        ...ofTrials.map(({ photo, trialId, point }) => ({
          kind: "trial photo removed",
          subject: "trial" as const,
          subjectId: trialId,
          detail: { photo, sha256: which, point },
        })),
      ];
    }
    case "person": {
      await forgetAttempts(tx, which);
      const invitesRevoked = await revokeInvitesOf(tx, { personId: which, at });
      await revokeRecoveriesBy(tx, { personId: which, at });
      const detail = { invitesRevoked };
      return [{ kind: "removed", subject: "person", subjectId: which, detail }];
    }
  }
}

async function forgetAttempts(tx: Db, personId: string): Promise<void> {
  const [person] = await tx
    .select({ emailKey: people.emailKey })
    .from(people)
    .where(and(eq(people.id, personId), belongs));
  if (!person?.emailKey) return;
  await tx
    .delete(signInAttempts)
    .where(eq(signInAttempts.key, attemptKey("email", person.emailKey)));
}
