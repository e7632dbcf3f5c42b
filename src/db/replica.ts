import { performance } from "node:perf_hooks";
import { sql } from "drizzle-orm";
import { drizzle } from "drizzle-orm/postgres-js";
import postgres from "postgres";
import type { Db } from "./client.ts";
import * as schema from "./schema/index.ts";
import { type Watched, watchQueries } from "./slow-queries.ts";
import { soon } from "./soon.ts";

/** How old what a replica shows may be, milliseconds; one that may be older is not read. */
export const oldestMs = 5_000;

/** How long it may take over what a list asks before the primary is asked, milliseconds. */
export const patienceMs = 3_000;

/** How long a look at either database may take, milliseconds. */
const lookMs = 2_000;

/** `away` is also what nobody has looked at yet. */
export type ReplicaIs = "read" | "behind" | "away" | "of another database";

/** A copy of the database that follows it, for lists that may be some seconds old. */
export type Replica = {
  db: Db;
  /** Looks how far it has come; never fails, since a replica that is away is an answer. */
  look: () => Promise<void>;
  is: () => ReplicaIs;
  /** How old what it shows may be, seconds; infinite where nobody could look. */
  behindSeconds: () => number;
  /** Whether it was seen to hold what the primary had written up to a position such as `0/16B3748`. */
  holds: (position: string) => boolean;
  /** It failed a reader: nobody reads it before the next look. */
  failed: () => void;
  close: () => Promise<void>;
};

/**
 * Opens a replica. Nothing is asked of it before the first look, so that a studio starts without it.
 *
 * How old it is is never told by the clocks of databases: each look notes where the primary is, and
 * what the replica has reached says as of which look it holds everything.
 *
 * @param now milliseconds of a clock that only goes forward.
 */
export function openReplica(
  url: string,
  primary: Db,
  {
    watched,
    now = () => performance.now(),
  }: { watched?: Watched | undefined; now?: () => number } = {},
): Replica {
  const client = postgres(url, {
    max: 10,
    onnotice: () => {},
    connect_timeout: lookMs / 1000,
    backoff: () => 0.5,
    // Should the address lead to a database that takes writes, none comes from here.
    connection: { default_transaction_read_only: true, statement_timeout: patienceMs },
  });
  if (watched) watchQueries(client, watched);
  const db = drizzle(client, { schema, casing: "snake_case" });

  let noted: { at: number; position: bigint }[] = [];
  let reached = 0n;
  let wholeAsOf = Number.NEGATIVE_INFINITY;
  let fault: "away" | "of another database" | undefined = "away";

  async function look(): Promise<void> {
    const at = now();
    const written = await soon(whereIs(primary, "pg_current_wal_flush_lsn()"), lookMs);
    if (written) noted = [...noted, { at, position: parse(written.position) }].slice(-12);
    const found = await soon(whereIs(db, replayed), lookMs);
    if (!written || !found) {
      fault = "away";
    } else if (found.cluster !== written.cluster || found.database !== written.database) {
      fault = "of another database";
    } else {
      fault = undefined;
      reached = parse(found.position);
      const whole = noted.filter(({ position }) => position <= reached).at(-1);
      if (whole) wholeAsOf = Math.max(wholeAsOf, whole.at);
    }
  }

  const behindMs = () => now() - wholeAsOf;
  return {
    db,
    look,
    is: () => fault ?? (behindMs() <= oldestMs ? "read" : "behind"),
    behindSeconds: () => behindMs() / 1000,
    holds: (position) => isPosition(position) && parse(position) <= reached,
    failed: () => {
      fault ??= "away";
    },
    close: () => client.end({ timeout: 5 }),
  };
}

/** A place in what the database writes: two hexadecimal numbers of at most eight digits. */
const isPosition = (text: string): boolean => /^[0-9A-F]{1,8}\/[0-9A-F]{1,8}$/i.test(text);

/** Up to where this database has written, with what is not yet on the disk. */
export async function writtenUpTo(db: Db): Promise<string> {
  const [found] = await db
    .select({ position: sql<string>`pg_current_wal_insert_lsn()::text` })
    .from(sql`pg_control_system()`);
  return found?.position ?? "";
}

/** A database that takes writes shows all that it wrote. */
const replayed =
  "case when pg_is_in_recovery() then pg_last_wal_replay_lsn() else pg_current_wal_insert_lsn() end";

type Where = { position: string; cluster: string; database: string };

async function whereIs(db: Db, position: string): Promise<Where> {
  const [found] = await db
    .select({
      position: sql<string>`(${sql.raw(position)})::text`,
      database: sql<string>`current_database()`,
      cluster: sql<string>`system_identifier::text`,
    })
    .from(sql`pg_control_system()`);
  if (!found) throw new Error("a database that has no place");
  return found;
}

function parse(position: string): bigint {
  const [high = "", low = ""] = position.split("/");
  return (BigInt(`0x${high}`) << 32n) | BigInt(`0x${low}`);
}
