import { type SQL, sql } from "drizzle-orm";
import type { Role } from "./people.ts";
import { events, notes, recipes, revisions } from "./schema/index.ts";

/** Somebody of the studio for whom something may wait, at some moment. */
export type Waiter = { reader: { id: string; role: Role }; now: Date };

export const waitingKinds = [
  "recall-used",
  "recall",
  "objection",
  "objection-answered",
  "offer",
  "review",
  "another-look",
  "bucket",
  "bucket-on-hold",
  "bucket-report",
  "mention",
  "analysis",
  "stock-low",
] as const;

export type WaitingKind = (typeof waitingKinds)[number];

/** What may hurt somebody while it waits. */
export const hurtfulKinds: readonly WaitingKind[] = [
  "recall-used",
  "recall",
  "bucket",
  "bucket-on-hold",
  "bucket-report",
];

export type WaitingRow = {
  kind: WaitingKind;
  /** Of the recipe, or of the material; of what is recalled, its name. */
  slug: string;
  name: string;
  number: number | null;
  /** The id of the note, offer, bucket, analysis or recall that it is about. */
  ref: string | null;
  /** The bucket's name, the analysis's source, why it is recalled, or what is left of how much. */
  detail: string;
  at: Date;
  by: string | null;
};

type Given = {
  kind: WaitingKind;
  slug?: unknown;
  name?: unknown;
  number?: unknown;
  ref?: unknown;
  detail?: unknown;
  at: unknown;
  by?: unknown;
};

/** The columns of what waits, the same for each kind, so that all kinds can be asked for at once. */
export const waitingColumns = ({ kind, number, ref, detail, at, by, ...of }: Given) => ({
  kind: sql<WaitingKind>`${sql.raw(`'${kind}'`)}::text`.as("kind"),
  slug: sql<string>`${of.slug ?? recipes.slug}`.as("slug"),
  name: sql<string>`${of.name ?? recipes.name}`.as("name"),
  number: sql<number | null>`(${number ?? null})::integer`.as("number"),
  ref: sql<string | null>`(${ref ?? null})::text`.as("ref"),
  detail: sql<string>`(${detail ?? ""})::text`.as("detail"),
  at: sql<Date>`${at}`.mapWith(notes.at).as("at"),
  by: sql<string | null>`(${by ?? null})::text`.as("by"),
});

/** When a revision's standing last came to another word, as the record has it. */
export const standingChangedAt: SQL = sql`(
  select max(e.at) from ${events} e
  where e.subject_id = ${recipes.id} and e.kind = 'standing changed'
    and (e.text::jsonb #>> '{detail,number}')::integer = ${revisions.number})`;
