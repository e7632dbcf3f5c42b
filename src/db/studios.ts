import type { Decimal } from "decimal.js";
import { eq, getTableColumns } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { prepared } from "./prepared.ts";
import { studios } from "./schema/index.ts";
import { unsettleAll } from "./unsettling.ts";

export type Studio = {
  name: string;
  /** Whether a visitor without an account may read what its owners show to everyone. */
  showsPublic: boolean;
  /** The step of the scale that batches are weighed on. */
  scaleGrams: Decimal;
  /** How many months an approval holds; for ever where null. */
  approvalMonths: number | null;
  /** Whose limits leach reports are held against. */
  jurisdictions: string[];
  /** How far, ΔE00, a bucket's proof tile may be from its first; null where the studio sets none. */
  colourTolerance: Decimal | null;
  /** What prices are shown in; null is the currency last paid in. */
  currency: string | null;
  /** How far a weight may be from the batch sheet, percent of its line. */
  mixTolerancePercent: Decimal;
  /** For how many weeks of use there should be powder in the room. */
  stockWeeks: number;
};

const { only: _, ...settings } = getTableColumns(studios);

/** The studio of this database, made with the given name where there is none yet. */
export async function openStudio(db: Db, called: string): Promise<Studio> {
  await db
    .insert(studios)
    .values({ only: 1, name: called, showsPublic: true })
    .onConflictDoNothing();
  return findStudio(db);
}

const settingsNow = prepared((db) => db.select(settings).from(studios).prepare("studio"));

/** The studio as it is set now, whichever instance set it. */
export async function findStudio(db: Db): Promise<Studio> {
  const [studio] = await settingsNow(db).execute();
  if (!studio) throw new Error("the studio is made when the database is opened");
  return studio;
}

/** Sets how the studio does things from now on. Approvals are looked at anew where they may end otherwise. */
export async function setStudio(db: Db, { by, at, ...set }: Act & Studio): Promise<void> {
  await db.transaction(async (tx) => {
    const before = await findStudio(tx);
    await tx.update(studios).set(set).where(eq(studios.only, 1));
    if (mayEndApprovals(before, set)) await unsettleAll(tx);
    const detail = {
      showsPublic: set.showsPublic,
      scaleGrams: set.scaleGrams.toFixed(),
      approvalMonths: set.approvalMonths,
      jurisdictions: set.jurisdictions.join(" "),
      colourTolerance: set.colourTolerance?.toFixed() ?? null,
      currency: set.currency,
      mixTolerancePercent: set.mixTolerancePercent.toFixed(),
      stockWeeks: set.stockWeeks,
    };
    const happening = {
      kind: "studio set",
      subject: "studio",
      subjectId: studioId,
      detail,
    } as const;
    await appendEvent(tx, { by, at }, happening);
  });
}

/** Another term for approvals, or other limits for leach reports. */
const mayEndApprovals = (before: Studio, after: Studio): boolean =>
  before.approvalMonths !== after.approvalMonths ||
  [...before.jurisdictions].sort().join() !== [...after.jurisdictions].sort().join();

/** There is one studio, and the record knows it by this. */
export const studioId = "00000000-0000-7000-8000-000000000001";
