import { sql } from "drizzle-orm";
import postgres from "postgres";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database, Db } from "../../src/db/client.ts";
import { openPostgres } from "../../src/db/postgres.ts";
import { Turns } from "../../src/db/turns.ts";
import { NoConnectionFree, whyUnanswered } from "../../src/db/unanswered.ts";
import { makeServedDatabase, type ServedDatabase } from "../engines/served.ts";
import { openTestStudio } from "../studio.ts";

type Here = { pid: number };

const failure = (asked: PromiseLike<unknown>): Promise<unknown> =>
  Promise.resolve(asked).then(
    () => undefined,
    (error) => error,
  );

describe("turns", () => {
  it("let through in order, and nobody in the place of somebody who has it", async () => {
    const turns = new Turns(1, 60_000);
    const seen: string[] = [];
    const work = (name: string) => async () => {
      seen.push(`${name} begins`);
      await Promise.resolve();
      seen.push(`${name} ends`);
    };
    const failing = turns.take(async () => {
      throw new Error("mine");
    });
    await Promise.all([
      expect(failing).rejects.toThrow("mine"),
      ...["one", "two"].map((name) => turns.take(work(name))),
    ]);
    expect(seen).toEqual(["one begins", "one ends", "two begins", "two ends"]);
  });

  it("refuse who waited too long, without beginning their work", async () => {
    const turns = new Turns(1, 5);
    let begun = false;
    let end = () => {};
    const held = turns.take(() => new Promise<void>((resolve) => (end = resolve)));
    const late = turns.take(async () => {
      begun = true;
    });
    await expect(late).rejects.toBeInstanceOf(NoConnectionFree);
    end();
    await held;
    expect(await turns.take(async () => "mine")).toBe("mine");
    expect(begun).toBe(false);
  });
});

describe.skipIf(process.env.BUCKET_ENGINE !== "postgres")("a pool that requests share", () => {
  let served: ServedDatabase;
  let database: Database;
  let db: Db;
  let admin: postgres.Sql;
  beforeAll(async () => {
    served = await makeServedDatabase();
    const url = served.variables.DATABASE_URL;
    const bounds = { statementMs: 1000, waitMs: 50 };
    const watched = { slowerThan: 60_000, tell: () => {} };
    database = await openPostgres(url, undefined, { ...watched, ...bounds });
    db = database.db;
    admin = postgres(url, { max: 1, onnotice: () => {} });
    await admin`create table kept (n integer)`;
  });
  afterAll(async () => {
    await database.close();
    await admin.end();
    await served.drop();
  });

  const put = (tx: Db, n: number) => tx.execute(sql`insert into kept values (${sql.raw(`${n}`)})`);
  const kept = async () => (await admin`select n from kept order by n`).map(({ n }) => n);
  /** As a restart of the server does to whoever is between two statements. */
  const loseConnection = async (tx: Db) => {
    const [here] = (await tx.execute(sql`select pg_backend_pid() as pid`)) as unknown as Here[];
    await admin`select pg_terminate_backend(${here?.pid ?? 0}, 60000)`;
    // Whatever else comes in is answered by a connection that is made anew in its place.
    for (let times = 0; times < 12; times += 1) await db.execute(sql`select 1`);
  };

  /** All that it goes on to ask after its connection was lost is refused, and nothing is written. */
  const endsAway = async (goOn: (tx: Db) => Promise<unknown[]>) => {
    let goingOn: Promise<unknown[]> | undefined;
    const broke = await failure(
      db.transaction((tx) => {
        goingOn = goOn(tx);
        return goingOn;
      }),
    );
    const refused = (await goingOn) ?? [];
    expect([broke, ...refused].map(whyUnanswered)).toEqual(["away", "away", "away"]);
    expect(await kept()).toEqual([]);
  };

  it("ends a transaction with its connection, and writes nothing of it elsewhere", async () => {
    const goOn = async (tx: Db) => {
      await put(tx, 1);
      await loseConnection(tx);
      return [await failure(put(tx, 2)), await failure(tx.transaction((inner) => put(inner, 3)))];
    };
    await endsAway(goOn);
  });

  it("ends one within another likewise", async () => {
    const goOn = async (tx: Db) => {
      const inner = async (within: Db) => {
        await put(within, 4);
        await loseConnection(within);
        await put(within, 5);
      };
      return [await failure(tx.transaction(inner)), await failure(put(tx, 6))];
    };
    await endsAway(goOn);
  });

  it("rolls back as ever where the connection is there", async () => {
    const broke = await failure(
      db.transaction(async (tx) => {
        await put(tx, 7);
        await failure(tx.transaction((inner) => inner.execute(sql`select 1 / 0`)));
        await put(tx, 8);
        throw new Error("mine");
      }),
    );
    expect(broke).toMatchObject({ message: "mine" });
    expect(await kept()).toEqual([]);
  });

  it("stops what takes too long", async () => {
    expect(whyUnanswered(await failure(db.execute(sql`select pg_sleep(600)`)))).toBe("long");
    expect(await failure(db.execute(sql`select 1`))).toBeUndefined();
  });

  it("refuses who waits too long for a connection", async () => {
    let giveBack = () => {};
    const given = new Promise<void>((resolve) => (giveBack = resolve));
    const held = Array.from({ length: 10 }, () => db.transaction(() => given));
    const waited = await Promise.all([
      failure(db.execute(sql`select 1`)),
      failure(db.transaction((tx) => put(tx, 9))),
    ]);
    giveBack();
    await Promise.all(held);
    expect(waited.map(whyUnanswered)).toEqual(["busy", "busy"]);
    expect(await failure(db.execute(sql`select 1`))).toBeUndefined();
    expect(await kept()).toEqual([]);
  });

  it("is told of in words where the database is away", async () => {
    const away = await makeServedDatabase();
    const studio = await openTestStudio({}, await away.open());
    await studio.close();
    for (const accept of ["application/json", "text/html"]) {
      const answer = await studio.send("author", "/recipes", { accept });
      expect(answer.status).toBe(503);
      expect(answer.headers.get("retry-after")).toBe("5");
      expect(await answer.text()).toContain("database is away");
    }
    expect((await studio.send("visitor", "/healthz")).status).toBe(200);
    expect((await studio.send("visitor", "/readyz")).status).toBe(503);
    await away.drop();
  });
});
