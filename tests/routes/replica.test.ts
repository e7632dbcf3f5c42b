import { eq, sql } from "drizzle-orm";
import { afterAll, afterEach, beforeAll, describe, expect, inject, it } from "vitest";
import { createApp } from "../../src/app.ts";
import { openAuth } from "../../src/auth.ts";
import { readConfig } from "../../src/config.ts";
import type { Db } from "../../src/db/client.ts";
import { oldestMs, openReplica, type Replica } from "../../src/db/replica.ts";
import { revisionStandings, sessions } from "../../src/db/schema/index.ts";
import type { ListRead } from "../../src/wire/context.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, origin, type TestStudio } from "../studio.ts";

const lists = [
  "/recipes",
  "/recipes?q=slack",
  "/start?making=mug-or-bowl",
  "/tiles",
  "/tiles/sheet",
];
const shelf = ["/materials", "/families", "/guide/names"];
/** What people act on at once, what a link leads to that was just made, and who may do what. */
const primary = ["/buckets", "/stock", "/waiting", "/people", "/studio", "/account", "/events"];

describe.runIf(process.env.BUCKET_ENGINE === "postgres")("lists beside a replica", () => {
  let studio: TestStudio;
  let slug: string;
  let url: URL;
  const asked: string[] = [];
  const opened: Replica[] = [];
  const watched = { slowerThan: -1, tell: ({ query }: { query: string }) => asked.push(query) };

  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
    const [row] = (await studio.db.execute(sql`select current_database() as name`)) as unknown as {
      name: string;
    }[];
    url = new URL(inject("server"));
    url.pathname = `/${row?.name}`;
  });
  afterEach(async () => {
    await Promise.all(opened.splice(0).map((replica) => replica.close()));
    asked.length = 0;
  });
  afterAll(() => studio.close());

  /** A second way to the same database, through which nothing can be written. */
  const open = (address = url.href, now?: () => number) => {
    const replica = openReplica(address, studio.db, { watched, ...(now && { now }) });
    opened.push(replica);
    return replica;
  };

  /** The studio behind an app that has a replica, asked by a browser that keeps its cookies. */
  const behind = (replica: Replica) => {
    const read: ListRead[] = [];
    const broken: unknown[] = [];
    const app = createApp({
      ...{ db: studio.db, config: readConfig({}), auth: openAuth(false), replica },
      telling: { listed: (where) => read.push(where), broken: ({ error }) => broken.push(error) },
    });
    const browser = (cookie = "") => {
      const jar = new Map(cookie ? [cookie.split("=") as [string, string]] : []);
      return async (path: string, init: RequestInit = {}) => {
        const cookies = [...jar].map((pair) => pair.join("=")).join("; ");
        const headers = { accept: "application/json", cookie: cookies, ...init.headers };
        const answer = await app.request(`${origin}${path}`, { ...init, headers });
        for (const line of answer.headers.getSetCookie()) {
          const [name = "", value = ""] = line.split(";")[0]?.split("=") ?? [];
          jar.set(name, value);
        }
        return answer;
      };
    };
    const slugs = async (ask: ReturnType<typeof browser>) => {
      const { items } = (await (await ask("/recipes")).json()) as { items: { slug: string }[] };
      return items.map((item) => item.slug);
    };
    return { read, broken, browser, slugs };
  };

  /** What a replica holds that stopped following, until `thaw`. */
  const freeze = async () => {
    let thaw = () => {};
    const thawed = new Promise<void>((resolve) => {
      thaw = resolve;
    });
    let ended: Promise<void> = Promise.resolve();
    const db = await new Promise<Db>((resolve) => {
      ended = studio.db.transaction(
        async (tx) => {
          await tx.execute(sql`select 1`);
          resolve(tx);
          await thawed;
        },
        { isolationLevel: "repeatable read", accessMode: "read only" },
      );
    });
    const end = async () => {
      thaw();
      await ended;
    };
    return { db, end };
  };

  const looked = async (replica: Replica) => {
    await replica.look();
    return replica;
  };

  const recipe = (name: string) => ({
    method: "POST",
    headers: { "content-type": "application/json" },
    body: JSON.stringify({
      name,
      shownTo: "public",
      revision: {
        ...{ message: "", use: "decorative", atmosphere: "oxidation", surface: "", about: "" },
        lines: [{ part: "base", material: "quartz", amount: "100" }],
        cones: { low: "6", high: "6" },
      },
    }),
  });

  it("are read from it, by a visitor and by people of the studio", async () => {
    const { browser, read, broken } = behind(await looked(open()));
    for (const ask of [browser(), browser(studio.cookies.manager)])
      for (const path of [...lists, ...shelf]) {
        asked.length = 0;
        read.length = 0;
        for (const accept of ["application/json", "text/html"])
          expect((await ask(path, { headers: { accept } })).status).toBe(200);
        expect([path, ...read]).toEqual([path, "replica", "replica"]);
        expect(asked.length).toBeGreaterThan(0);
        expect(asked.filter((query) => /"sessions"/.test(query))).toEqual([]);
      }
    expect(broken).toEqual([]);
  });

  it("are all that is read from it", async () => {
    const { browser, read } = behind(await looked(open()));
    const ask = browser(studio.cookies.manager);
    asked.length = 0;
    for (const path of [...primary, `/recipes/${slug}`, "/materials/quartz"])
      expect([path, (await ask(path)).status]).toEqual([path, 200]);
    expect((await ask("/recipes", recipe("Asked Nowhere"))).status).toBe(201);
    expect([asked, read]).toEqual([[], []]);
  });

  it("show a feed's items from it, and whose address it is from the primary", async () => {
    const { browser, read } = behind(await looked(open()));
    const member = browser(studio.cookies["other member"]);
    const opening = { method: "POST", headers: { "content-type": "application/json" }, body: "{}" };
    const { link } = (await (await member("/account/feed", opening)).json()) as { link: string };
    const { pathname } = new URL(link);
    await opened[0]?.look();
    expect((await browser()(pathname)).status).toBe(200);
    expect(read).toEqual(["replica"]);
    const frozen = await freeze();
    try {
      const late = behind({ ...(opened[0] as Replica), db: frozen.db });
      expect((await late.browser()(pathname)).status).toBe(200);
      await studio.send("other member", "/account/feed", { method: "DELETE" });
      expect((await late.browser()(pathname)).status).toBe(404);
      expect(late.read).toEqual(["replica"]);
    } finally {
      await frozen.end();
    }
  });

  it("show whoever wrote what they wrote, and others what the replica holds", async () => {
    const replica = await looked(open());
    const frozen = await freeze();
    const { browser, slugs, read } = behind({ ...replica, db: frozen.db });
    try {
      const author = browser(studio.cookies.author);
      const answer = await author("/recipes", recipe("Wrack Line"));
      expect(answer.status).toBe(201);
      expect(answer.headers.getSetCookie().join()).toMatch(/wrote=.*HttpOnly/);
      expect(await slugs(author)).toContain("wrack-line");
      expect(await slugs(browser(studio.cookies.manager))).not.toContain("wrack-line");
      expect(read).toEqual(["primary: own writes", "replica"]);
    } finally {
      await frozen.end();
    }
    // Another instance, whose replica was seen to hold it meanwhile.
    const caughtUp = behind(await looked(replica));
    const author = caughtUp.browser(studio.cookies.author);
    await author("/recipes", recipe("Wrack Line Two"));
    await replica.look();
    expect(await caughtUp.slugs(author)).toContain("wrack-line-two");
    expect(caughtUp.read).toEqual(["replica"]);
  });

  it("are read from the primary by whoever asks for the newest, or says they wrote what nobody did", async () => {
    const { browser, read } = behind(await looked(open()));
    await browser()("/recipes", { headers: { "cache-control": "no-cache" } });
    await browser("wrote=FFFFFFFF/FFFFFFFF")("/recipes");
    await browser("wrote=whatever")("/recipes");
    expect(read).toEqual(["primary: asked for", "primary: own writes", "primary: own writes"]);
  });

  it("never decide from it who may read", async () => {
    const replica = await looked(open());
    const frozen = await freeze();
    const { browser, read } = behind({ ...replica, db: frozen.db });
    try {
      const { cookies, ids } = studio;
      await studio.db.delete(sessions).where(eq(sessions.userId, ids["other member"]));
      expect((await browser(cookies["other member"])("/recipes?stocked=1")).status).toBe(401);
      const before = await studio.json("manager", "/studio");
      const closed = { ...before, showsPublic: false };
      const set = await studio.send("manager", "/studio", { method: "PUT", json: closed });
      expect(set.status).toBe(200);
      expect((await browser()("/recipes")).status).toBe(401);
      const again = { ...before, showsPublic: true };
      await studio.send("manager", "/studio", { method: "PUT", json: again });
      expect(read.filter((where) => where === "replica").length).toBeLessThan(2);
    } finally {
      await frozen.end();
    }
  });

  it("settle on the primary what they show", async () => {
    const { browser, read, broken } = behind(await looked(open()));
    await studio.db.update(revisionStandings).set({ unsettled: true });
    expect((await browser()("/recipes")).status).toBe(200);
    expect(read).toEqual(["primary: replica failed"]);
    const marked = eq(revisionStandings.unsettled, true);
    expect(await studio.db.$count(revisionStandings, marked)).toBe(0);
    await browser()("/recipes");
    expect(read.at(-1)).toBe("replica");
    expect(broken).toEqual([]);
  });

  it("come from the primary where the replica is away, which /readyz and the manager's page say", async () => {
    const away = open("postgres://root@127.0.0.1:1/nothing");
    const { browser, read, slugs } = behind(away);
    expect(await slugs(browser())).toContain(slug);
    await away.look();
    expect(await slugs(browser())).toContain(slug);
    expect(read).toEqual(["primary: replica away", "primary: replica away"]);
    const ready = await browser()("/readyz");
    expect([ready.status, await ready.json()]).toEqual([200, { is: "ready", replica: "away" }]);
    const manager = browser(studio.cookies.manager);
    expect(await (await manager("/studio/about")).json()).toMatchObject({ replica: "away" });
    const page = await manager("/studio/about", { headers: { accept: "text/html" } });
    expect(await page.text()).toContain("the replica does not answer");
  });

  it("come from the primary where the replica breaks off, and it is not asked before the next look", async () => {
    const replica = await looked(open());
    const lost = () => {
      throw new Error("the connection was lost");
    };
    const { browser, read, slugs, broken } = behind({
      ...replica,
      db: { ...replica.db, select: lost, execute: lost } as unknown as Db,
    });
    expect(await slugs(browser())).toContain(slug);
    expect(await slugs(browser())).toContain(slug);
    await replica.look();
    await slugs(browser());
    const failed = "primary: replica failed";
    expect(read).toEqual([failed, "primary: replica away", failed]);
    expect(broken).toEqual([]);
  });

  it("come from the primary where the replica may be older than is told", async () => {
    let at = 0;
    const replica = open(url.href, () => at);
    await replica.look();
    const { browser, read } = behind(replica);
    at = oldestMs;
    await browser()("/recipes");
    at = oldestMs + 1;
    await browser()("/recipes");
    expect(read).toEqual(["replica", "primary: replica behind"]);
    expect(replica.behindSeconds()).toBeGreaterThan(5);
    await replica.look();
    expect([replica.is(), replica.behindSeconds()]).toEqual(["read", 0]);
  });

  it("never come from a database that is no copy of this one", async () => {
    const other = new URL(url);
    other.pathname = "/postgres";
    const { browser, read, slugs } = behind(await looked(open(other.href)));
    expect(await slugs(browser())).toContain(slug);
    expect(read).toEqual(["primary: replica of another database"]);
  });
});

describe("a studio without a replica", () => {
  it("notes nothing in the browser and says nothing of one", async () => {
    const studio = await openTestStudio();
    try {
      const named = { name: "Alumina", kind: "oxide", formula: "Al2O3" };
      const answer = await studio.send("manager", "/materials", { json: named });
      expect(answer.status).toBe(201);
      expect(answer.headers.getSetCookie()).toEqual([]);
      expect(await studio.json("visitor", "/readyz")).toEqual({ is: "ready" });
    } finally {
      await studio.close();
    }
  });
});
