import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { RoundPage } from "../../views/rounds/round.tsx";
import { addReading } from "../db/bucket-readings.ts";
import { findBucket } from "../db/buckets.ts";
import { listRound } from "../db/rounds.ts";
import { answer, created } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { roundTickBody } from "./bucket-care-body.ts";
import { emptyFault, stateOf } from "./bucket-json.ts";
import { dayBegan, stopJson, stopOf } from "./round-json.ts";

export const rounds = new Hono<Env>();

rounds.get(
  "/rounds",
  described({
    says: "Every bucket that is not empty, in the order of names, with what to look at and what was seen of it today (UTC)",
  }),
  memberRequired,
  async (c) => {
    const stops = await stopsOf(c);
    return answer(c, {
      json: () => ({ ...doneOf(c, stops), stops: stops.map(stopJson) }),
      ...roundSheet(c, stops, {}, []),
    });
  },
);

rounds.post(
  "/rounds/ticks",
  described({
    says: "Put on record what somebody saw of a bucket on the round: one of its readings",
    body: roundTickBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, roundTickBody);
    const again = async (faults: readonly Fault[], status: 415 | 422 = 422) =>
      faulty(c, { status, faults }, roundSheet(c, await stopsOf(c), read.typed, faults));
    if (read.kind === "refused") return again(read.faults, read.status);
    const { bucket: id, specificGravity, litres, flowSeconds, stirred, note } = read.value;
    const { db, viewer: reader, now } = c.var;
    const bucket = await findBucket(db, { id, reader, now });
    if (!bucket) return again([{ path: "bucket", says: "There is no such bucket." }]);
    if (stateOf(bucket)?.is === "empty") return again([emptyFault("bucket")]);

    await addReading(db, {
      ...{ bucketId: id, stirred, note, celsius: null, coatMm: null, ...actOf(c) },
      specificGravity: specificGravity ?? null,
      litres: litres ?? null,
      flowSeconds: flowSeconds ?? null,
    });
    const stop = (await stopsOf(c)).find((each) => each.id === id);
    return created(c, `/rounds#stop-${id}`, stop && stopJson(stop));
  },
);

async function stopsOf(c: Ctx) {
  const { db, viewer: reader, now } = c.var;
  const round = await listRound(db, { reader, now, since: dayBegan(now) });
  return round.map((stop) => stopOf(stop, now));
}

type Stops = Awaited<ReturnType<typeof stopsOf>>;

const doneOf = (c: Ctx, stops: Stops) => ({
  day: c.var.now.toISOString().slice(0, 10),
  done: stops.filter(({ tick }) => tick !== null).length,
  of: stops.length,
});

const roundSheet = (c: Ctx, stops: Stops, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "The round", here: "buckets" } as const,
  view: () =>
    RoundPage({
      stops,
      ...doneOf(c, stops),
      typed: (path) => typedText(typed, path),
      faults,
      newKey: uuidv7,
    }),
});
