import { readdirSync, readFileSync } from "node:fs";
import { sql } from "drizzle-orm";
import type { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../src/app.ts";
import { openAuth } from "../../src/auth.ts";
import { readConfig } from "../../src/config.ts";
import { type Database, openDatabase } from "../../src/db/client.ts";
import { countStale } from "../../src/db/recomputing.ts";
import { settleSome } from "../../src/db/standings.ts";
import type { Env } from "../../src/wire/context.ts";
import { recomputeAll } from "../../src/work/recomputing.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openTestDatabase } from "../engines/open.ts";
import { makeReleased, type Released } from "../engines/released.ts";
import { exportOf } from "../exports.ts";
import { password } from "./upgrades/filling.ts";

const folder = new URL("./upgrades/", import.meta.url);
const releases = readdirSync(folder)
  .filter((name) => name.endsWith(".sql"))
  .map((name) => name.slice(0, -".sql".length));

/** Worked out from the rest, and anew where the program counts otherwise. */
const derived = ["chemistries", "revision_standings"];

const counting = (tables: string[]) =>
  tables
    .map((name) => `select '${name}' as name, count(*)::int as rows from "${name}"`)
    .join(" union all ");

const tablesOf = `select table_name as name from information_schema.tables
  where table_schema = 'public' and table_type = 'BASE TABLE'`;

const shown = `select slug, recipes.name, number, message,
    (select string_agg(trim_scale(amount)::text, ' ' order by position) from revision_lines
      where revision_id = revisions.id) as amounts
  from recipes join revisions on recipe_id = recipes.id and number = head
  where shown_to = 'public' and not exists (select from withdrawals where recipe_id = recipes.id)
  order by slug collate "C"`;

type Shown = { slug: string; name: string; number: number; message: string; amounts: string };

it("has a studio of each release before", () => {
  expect(releases).toHaveLength(5);
});

describe.each(releases)("a studio that was left after %s", (last) => {
  const before = { rows: new Map<string, number>(), shown: [] as Shown[] };
  let released: Released;
  let database: Database;
  let app: Hono<Env>;
  const logged: string[] = [];
  const ask = async <Row>(query: string): Promise<Row[]> => {
    const answered = (await database.db.execute(sql.raw(query))) as unknown;
    return (Array.isArray(answered) ? [...answered] : (answered as { rows: Row[] }).rows) as Row[];
  };

  beforeAll(async () => {
    const dump = readFileSync(new URL(`${last}.sql`, folder), "utf8");
    released = await makeReleased({ last, dump }, async (look) => {
      const tables = (await look(tablesOf)).map(({ name }) => String(name));
      for (const { name, rows } of await look(counting(tables)))
        before.rows.set(String(name), Number(rows));
      before.shown = (await look(shown)) as Shown[];
    });
    database = await openDatabase(released.config);
    const telling = {
      broken: ({ route, error }: { route: string; error: unknown }) =>
        logged.push(`${route} ${error}`),
    };
    app = createApp({ db: database.db, config: readConfig({}), auth: openAuth(false), telling });
  });
  afterAll(async () => {
    await database.close();
    await released.drop();
  });

  it("keeps every row of every table", async () => {
    const now = new Map(
      (await ask<{ name: string; rows: number }>(counting([...before.rows.keys()]))).map(
        ({ name, rows }) => [name, rows],
      ),
    );
    for (const [name, rows] of before.rows)
      if (!derived.includes(name)) expect(`${name} ${now.get(name)}`).toBe(`${name} ${rows}`);
    expect(before.rows.get("revisions")).toBeGreaterThan(4);
    expect(before.rows.get("events")).toBeGreaterThan(50);
  });

  it("holds, before and after what works beside the requests has done its part", async () => {
    const now = new Date();
    expect(await verify(database.db, { now })).toMatchObject({ sound: true });
    await recomputeAll(database.db);
    while ((await settleSome(database.db, { limit: 100, now })) > 0);
    expect(await countStale(database.db)).toBe(0);
    expect(await verify(database.db, { now })).toMatchObject({ sound: true });
  });

  it("is searched by what it held, and each of its revisions has chemistry and a standing", async () => {
    const rows = new Map(
      (
        await ask<{ name: string; rows: number }>(
          counting([...derived, "recipe_heads", "recipe_words", "spellings"]),
        )
      ).map(({ name, rows }) => [name, rows]),
    );
    const recipes = before.rows.get("recipes");
    const revisions = before.rows.get("revisions");
    expect(rows.get("recipe_heads")).toBe(recipes);
    expect(rows.get("recipe_words")).toBe(recipes);
    expect(rows.get("chemistries")).toBe(revisions);
    expect(rows.get("revision_standings")).toBe(revisions);
    expect(rows.get("spellings")).toBeGreaterThan(20);
  });

  it("shows a visitor what it showed, and finds it", async () => {
    expect(before.shown.length).toBeGreaterThan(1);
    const list = await (await app.request("http://localhost/recipes")).text();
    for (const { slug, name, number, message, amounts } of before.shown) {
      expect(list).toContain(name);
      const page = await app.request(`http://localhost/recipes/${slug}`);
      expect(page.status).toBe(200);
      expect(await page.text()).toContain(name);
      const headers = { accept: "application/json" };
      const asked = await app.request(`http://localhost/recipes/${slug}`, { headers });
      const told = (await asked.json()) as { head: { lines: { amount: string }[] } };
      expect(told).toMatchObject({ slug, name, head: { number, message } });
      expect(told.head.lines.map(({ amount }) => amount).join(" ")).toBe(amounts);
    }
    expect(logged).toEqual([]);
  });

  it("lets a manager in with the password from before, who takes it along", async () => {
    const headers = { "content-type": "application/json", accept: "application/json" };
    const signedIn = await app.request("http://localhost/session", {
      method: "POST",
      headers,
      body: JSON.stringify({ email: "ines@saltmarsh.example", password }),
    });
    expect(signedIn.status).toBe(200);
    const cookie = signedIn.headers.get("set-cookie")?.split(";")[0] ?? "";
    const answer = await app.request("http://localhost/export", { headers: { cookie } });
    expect(answer.status).toBe(200);
    const zip = Buffer.from(await answer.arrayBuffer());
    const target = await openTestDatabase();
    try {
      const restored = await restoreLibrary(target.db, { bytes: zip }, { now: new Date() });
      expect(restored).toMatchObject({ kind: "restored" });
      expect((await exportOf(target.db)).equals(await exportOf(database.db))).toBe(true);
    } finally {
      await target.close();
    }
    expect(logged).toEqual([]);
  });
});
