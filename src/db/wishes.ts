import { randomBytes } from "node:crypto";
import { and, eq, isNotNull, isNull, lte, or, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { sha256 } from "./digests.ts";
import { type Act, appendEvent } from "./events.ts";
import { belongs, type Role } from "./people.ts";
import { mailWishes, people, wishes } from "./schema/index.ts";

export { mailWishes };

export type MailWish = (typeof mailWishes)[number];

/** How somebody wants to be told what waits for them: by mail or not, and whether a feed is open. */
export type Wishes = { mail: MailWish; feed: boolean };

export async function findWishes(db: Db, personId: string): Promise<Wishes> {
  const [wish] = await db
    .select({ mail: wishes.mail, token: wishes.feedTokenHash })
    .from(wishes)
    .where(eq(wishes.personId, personId));
  return { mail: wish?.mail ?? "off", feed: wish !== undefined && wish.token !== null };
}

type OwnAct = Act & { by: string };

/** Sets whether somebody is told by mail. The first mail tells all that waits then. */
export async function setMailWish(db: Db, { mail, by, at }: OwnAct & { mail: MailWish }) {
  await db.transaction(async (tx) => {
    await tx
      .insert(wishes)
      .values({ personId: by, mail })
      .onConflictDoUpdate({ target: wishes.personId, set: { mail } });
    await tell(tx, { by, at }, "mail wished", { mail });
  });
}

/**
 * Opens somebody's feed, under a new address where it was open before.
 *
 * @returns its path. Its token is nowhere else: only its hash is stored.
 */
export async function openFeed(db: Db, { by, at }: OwnAct): Promise<{ path: string }> {
  const token = randomBytes(24).toString("base64url");
  const feedTokenHash = sha256(token);
  await db.transaction(async (tx) => {
    await tx
      .insert(wishes)
      .values({ personId: by, mail: "off", feedTokenHash })
      .onConflictDoUpdate({ target: wishes.personId, set: { feedTokenHash } });
    await tell(tx, { by, at }, "feed opened");
  });
  return { path: `/feeds/${token}` };
}

/** Closes somebody's feed, where it is open: its address answers nothing from now on. */
export async function closeFeed(db: Db, { by, at }: OwnAct): Promise<void> {
  await db.transaction(async (tx) => {
    const closed = await tx
      .update(wishes)
      .set({ feedTokenHash: null })
      .where(and(eq(wishes.personId, by), isNotNull(wishes.feedTokenHash)))
      .returning({ personId: wishes.personId });
    if (closed.length > 0) await tell(tx, { by, at }, "feed closed");
  });
}

const tell = (tx: Db, act: OwnAct, kind: string, detail?: Record<string, string>) =>
  appendEvent(tx, act, { kind, subject: "person", subjectId: act.by, detail });

export type FeedReader = { id: string; name: string; role: Role; joinedAt: Date };

/** Whose feed a token opens, as long as they belong to the studio. */
export async function findFeedReader(
  db: Db,
  { token }: { token: string },
): Promise<FeedReader | undefined> {
  const { id, name, role, joinedAt } = people;
  const [reader] = await db
    .select({ id, name, role, joinedAt })
    .from(wishes)
    .innerJoin(people, eq(people.id, wishes.personId))
    .where(and(eq(wishes.feedTokenHash, sha256(token)), belongs));
  return reader;
}

export type DueMail = {
  person: { id: string; name: string; role: Role };
  email: string;
  mail: MailWish;
  mailedUpTo: Date | null;
};

const day = 24 * 60 * 60 * 1000;

/** Whom it may be time to tell by mail: at once, or a day after they were told last. */
export const listDueMail = (db: Db, { now }: { now: Date }): Promise<DueMail[]> =>
  db
    .select({
      person: { id: people.id, name: people.name, role: people.role },
      email: sql<string>`${people.email}`,
      mail: wishes.mail,
      mailedUpTo: wishes.mailedUpTo,
    })
    .from(wishes)
    .innerJoin(people, eq(people.id, wishes.personId))
    .where(
      and(
        belongs,
        or(
          eq(wishes.mail, "at once"),
          and(
            eq(wishes.mail, "daily"),
            or(isNull(wishes.mailedUpTo), lte(wishes.mailedUpTo, new Date(now.getTime() - day))),
          ),
        ),
      ),
    )
    .orderBy(wishes.personId);

/**
 * Moves the mark up to which somebody was told. Of two instances that try at once one succeeds, and
 * that one sends.
 *
 * @returns whether it was this one.
 */
export async function moveMailed(
  db: Db,
  { personId, from, to }: { personId: string; from: Date | null; to: Date | null },
): Promise<boolean> {
  const moved = await db
    .update(wishes)
    .set({ mailedUpTo: to })
    .where(
      and(
        eq(wishes.personId, personId),
        from === null ? isNull(wishes.mailedUpTo) : eq(wishes.mailedUpTo, from),
      ),
    )
    .returning({ personId: wishes.personId });
  return moved.length > 0;
}
