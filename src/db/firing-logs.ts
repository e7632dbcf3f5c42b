import { promisify } from "node:util";
import { deflate, inflate } from "node:zlib";
import { and, desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Reading } from "../chem/cone-readings.ts";
import type { FiringLog } from "../chem/firing-log.ts";
import { thinned } from "../chem/thinning.ts";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { firingLogs, firingReadings, people } from "./schema/index.ts";

/** The readings of a firing that count: as many as may be drawn; all of them are read by its id. */
export type FoundLog = {
  id: string;
  received: number;
  kept: number;
  drawn: Reading[];
  by: { id: string; name: string };
  at: Date;
};

type NewLog = Act & { by: string; firingId: string; received: number; log: FiringLog };

/** `there-already`: the firing's newest log holds the same readings, as after a double tap. */
export type LogAdded = { kind: "added" | "there-already"; id: string };

/** Keeps the readings of a firing. Earlier ones stay on record; the newest count. */
export async function addFiringLog(
  db: Db,
  { firingId, received, log, by, at }: NewLog,
): Promise<LogAdded> {
  const packed = await pack(log);
  const drawn = thinned(log).map(([minutes, celsius]): [number, number] => [minutes, celsius]);
  return db.transaction(async (tx) => {
    const [newest] = await tx
      .select({ id: firingLogs.id })
      .from(firingLogs)
      .where(eq(firingLogs.firingId, firingId))
      .orderBy(desc(firingLogs.id))
      .limit(1);
    if (newest && (await holds(tx, newest.id, packed)))
      return { kind: "there-already", id: newest.id };
    const id = uuidv7();
    const kept = log.minutes.length;
    await tx.insert(firingLogs).values({ id, firingId, received, kept, drawn, by, at });
    await tx.insert(firingReadings).values({ logId: id, packed });
    const detail = { log: id, received, kept };
    await appendEvent(
      tx,
      { by, at },
      { kind: "readings added", subject: "firing", subjectId: firingId, detail },
    );
    return { kind: "added", id };
  });
}

const holds = async (tx: Db, logId: string, packed: Uint8Array): Promise<boolean> =>
  (await tx.$count(
    firingReadings,
    and(eq(firingReadings.logId, logId), eq(firingReadings.packed, packed)),
  )) > 0;

/** The newest readings of a firing, or undefined where none are on record. */
export async function findFiringLog(
  db: Db,
  { firingId }: { firingId: string },
): Promise<FoundLog | undefined> {
  const [found] = await db
    .select({
      id: firingLogs.id,
      received: firingLogs.received,
      kept: firingLogs.kept,
      drawn: firingLogs.drawn,
      by: { id: people.id, name: people.name },
      at: firingLogs.at,
    })
    .from(firingLogs)
    .innerJoin(people, eq(people.id, firingLogs.by))
    .where(eq(firingLogs.firingId, firingId))
    .orderBy(desc(firingLogs.id))
    .limit(1);
  return found;
}

/** All readings of a log. */
export async function readFiringLog(db: Db, { logId }: { logId: string }): Promise<FiringLog> {
  const [row] = await db
    .select({ packed: firingReadings.packed })
    .from(firingReadings)
    .where(eq(firingReadings.logId, logId));
  if (!row) throw new Error(`the readings of log ${logId} are gone`);
  return unpack(row.packed);
}

const fast = { level: 1 };
const deflated = promisify<Uint8Array, typeof fast, Buffer>(deflate);
const inflated = promisify<Uint8Array, Buffer>(inflate);

/** Minutes and °C in turn, 32-bit floats, the lowest byte first, deflated. */
async function pack({ minutes, celsius }: FiringLog): Promise<Uint8Array> {
  const bytes = Buffer.allocUnsafe(minutes.length * 8);
  for (let at = 0; at < minutes.length; at++) {
    bytes.writeFloatLE(minutes[at] as number, at * 8);
    bytes.writeFloatLE(celsius[at] as number, at * 8 + 4);
  }
  return deflated(bytes, fast);
}

async function unpack(packed: Uint8Array): Promise<FiringLog> {
  const bytes = await inflated(packed);
  const length = bytes.length / 8;
  const [minutes, celsius] = [new Float32Array(length), new Float32Array(length)];
  for (let at = 0; at < length; at++) {
    minutes[at] = bytes.readFloatLE(at * 8);
    celsius[at] = bytes.readFloatLE(at * 8 + 4);
  }
  return { minutes, celsius };
}
