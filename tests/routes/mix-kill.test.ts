import { Decimal } from "decimal.js";
import { eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findChainFault } from "../../src/db/chain.ts";
import type { Database } from "../../src/db/client.ts";
import { listEvents } from "../../src/db/events.ts";
import { openMix } from "../../src/db/mix-opening.ts";
import {
  bucketChanges,
  buckets,
  mixEnds,
  mixes,
  mixTicks,
  recipes,
  revisions,
  stockMoves,
} from "../../src/db/schema/index.ts";
import { leftOfLots } from "../../src/db/stock.ts";
import { makeServedDatabase, type ServedDatabase } from "../engines/served.ts";
import { buy } from "../mixes.ts";
import { type Server, startServer } from "../server.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

/** The embedded engine takes its time for each, and loses nothing by the number. */
const howMany = process.env.BUCKET_ENGINE === "postgres" ? 200 : 80;
/** Of 1000 g: feldspar and whiting, in the order to weigh. */
const planned = ["600", "400"];
const bought = "100000000";

/** A tick as a page keeps it until it has been answered. */
type Queued = { mix: string; n: number; grams: string; lot: string; key: string };

describe("a server that is killed while people weigh", () => {
  let served: ServedDatabase;
  let server: Server | undefined;
  let cookie: string;
  let lots: string[];
  let everyTick: Queued[];
  const acknowledged = new Set<string>();
  let cutOff = 0;

  beforeAll(async () => {
    served = await makeServedDatabase();
    const studio = await openTestStudio({}, await served.open());
    await stockShelf(studio);
    lots = [
      await buy(studio, "potash-feldspar", { grams: bought }),
      await buy(studio, "whiting", { grams: bought }),
    ];
    const recipe = await publish(studio, {
      lines: [
        ["potash-feldspar", "60"],
        ["whiting", "40"],
      ],
    });
    const opened = await openMixes(studio, recipe);
    everyTick = opened.flatMap((mix, place) =>
      planned.map((grams, line) => ({
        mix,
        n: line + 1,
        // To the last digit that is kept, and inside what a weight may be off by.
        grams: new Decimal(grams).plus(new Decimal(place * 2 + line).div(10_000)).toFixed(),
        lot: lots[line] ?? "",
        key: `tick-${place}-${line}`,
      })),
    );
    cookie = studio.cookies.manager;
    await studio.close();
  });
  afterAll(async () => {
    await server?.end("SIGKILL");
    await served?.drop();
  });

  /** Buckets of one recipe, each with an open mix. */
  async function openMixes({ db, ids }: TestStudio, recipe: string): Promise<string[]> {
    const act = { by: ids.manager, at: new Date() };
    const [revision] = await db
      .select({ id: revisions.id })
      .from(revisions)
      .innerJoin(recipes, eq(recipes.id, revisions.recipeId))
      .where(eq(recipes.slug, recipe));
    const rows = Array.from({ length: howMany }, (_, place) => ({
      id: uuidv7(),
      revisionId: revision?.id ?? "",
      name: `Bucket ${place}`,
      nameKey: `bucket ${place}`,
      litres: new Decimal(20),
      forTest: true,
      addedBy: act.by,
      addedAt: act.at,
    }));
    await db.insert(buckets).values(rows);
    const opened: string[] = [];
    for (const { id: bucketId } of rows) {
      const order = { grams: new Decimal(1000), scaleGrams: new Decimal(1) };
      const mix = await openMix(db, { bucketId, ...order, ...act });
      if (mix.kind !== "opened") throw new Error(mix.kind);
      opened.push(mix.id);
    }
    return opened;
  }

  const put = (path: string, json: object) =>
    fetch(`${server?.url}${path}`, {
      method: "PUT",
      headers: { cookie, "content-type": "application/json", accept: "application/json" },
      body: JSON.stringify(json),
    });

  /** Sends a tick twice at once, as a page does that is not sure whether the first arrived. */
  async function send({ mix, n, ...tick }: Queued): Promise<void> {
    const twice = [0, 1].map(async () => {
      const answer = await put(`/mixes/${mix}/lines/${n}`, tick);
      await answer.json();
      expect(answer.status).toBe(200);
      acknowledged.add(tick.key);
    });
    for (const sent of await Promise.allSettled(twice)) {
      if (sent.status === "fulfilled") continue;
      // What a dead server leaves unanswered is no answer; any other answer than 200 is a fault.
      if (!(sent.reason instanceof TypeError)) throw sent.reason;
      cutOff += 1;
    }
  }

  /** Twelve people at once take from one list until it is empty or they are told to stop. */
  async function inTurns<Item>(
    items: readonly Item[],
    work: (item: Item) => Promise<void>,
    stopped: () => boolean = () => false,
  ): Promise<void> {
    const waiting = [...items];
    const person = async () => {
      for (let item = waiting.shift(); item && !stopped(); item = waiting.shift()) await work(item);
    };
    await Promise.all(Array.from({ length: 12 }, person));
  }

  const unanswered = () => everyTick.filter(({ key }) => !acknowledged.has(key));

  /** Sends what is not answered yet, and kills the server once so many are. */
  async function sendUntilKilled(most: number): Promise<void> {
    let killed: Promise<void> | undefined;
    await inTurns(
      unanswered(),
      async (tick) => {
        await send(tick);
        if (acknowledged.size >= most) killed ??= server?.end("SIGKILL");
      },
      () => killed !== undefined,
    );
    await killed;
  }

  it("loses no tick that it acknowledged, and counts none twice", async () => {
    for (const share of [0.3, 0.7]) {
      server = await startServer(served.variables);
      cutOff = 0;
      await sendUntilKilled(everyTick.length * share);
      expect(cutOff).toBeGreaterThan(0);
      expect(unanswered().length).toBeGreaterThan(0);
    }
    server = await startServer(served.variables);
    await inTurns(unanswered(), send);
    expect(unanswered()).toEqual([]);
    await inTurns([...new Set(everyTick.map(({ mix }) => mix))], async (mix) => {
      expect((await put(`/mixes/${mix}/finish`, { waterGrams: "900" })).status).toBe(200);
    });
    await server.end("SIGTERM");

    const database = await served.open();
    await expectWhole(database);
    await database.close();
  }, 480_000);

  async function expectWhole({ db }: Database): Promise<void> {
    const ticks = await db.select().from(mixTicks);
    const kept = ticks.map(({ key, n, grams, lotId }) => [key, n, grams.toFixed(), lotId]);
    const sent = everyTick.map(({ key, n, grams, lot }) => [key, n, grams, lot]);
    expect(kept.sort()).toEqual(sent.sort());

    const moves = await db.select().from(stockMoves);
    const moved = moves.map(({ tickId, lotId, because, grams }) => {
      return [tickId, lotId, because, grams.toFixed()];
    });
    const ticked = ticks.map(({ id, lotId, grams }) => [id, lotId, "mix", grams.neg().toFixed()]);
    expect(moved.sort()).toEqual(ticked.sort());

    const left = await leftOfLots(db, lots);
    for (const lot of lots) {
      const taken = everyTick.filter((tick) => tick.lot === lot).map(({ grams }) => grams);
      const expected = new Decimal(bought).minus(Decimal.sum(...taken));
      expect(left.get(lot)?.toFixed()).toBe(expected.toFixed());
    }

    const ends = await db.select().from(mixEnds);
    expect(ends.map(({ is }) => is)).toEqual(Array(howMany).fill("finished"));
    const opened = await db.select({ bucket: mixes.bucketId }).from(mixes);
    const holds = await db.select({ bucket: bucketChanges.bucketId }).from(bucketChanges);
    expect(holds.map(({ bucket }) => bucket).sort()).toEqual(
      opened.map(({ bucket }) => bucket).sort(),
    );

    const said = await listEvents(db, { kind: "line ticked", limit: 10_000 });
    expect(said.map(({ detail }) => detail.tick).sort()).toEqual(ticks.map(({ id }) => id).sort());
    expect(await findChainFault(db)).toBeUndefined();
  }
});
