import { Hono } from "hono";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { rooms } from "../../src/routes/rooms.ts";
import type { Env } from "../../src/wire/context.ts";
import { callsOf } from "../../src/wire/described.ts";
import { asking } from "./asking.ts";
import { type Demo, startDemo } from "./demo.ts";
import { type Found, findRecords } from "./found.ts";
import { look, type Seen } from "./looking.ts";
import { notPages, pagesOf, type Reader, refusals, type Visit } from "./page-list.ts";
import { type Contexts, openContexts } from "./reading.ts";

/** What a link shows to whoever holds it is called as it is in the library. */
const sameThing = new Set([
  "/shared/:token /recipes/:slug",
  "/recipes/:slug/handout /handouts/:token",
]);

/** How many pages are looked at at once. */
const atOnce = 2;

describe("every page", () => {
  let demo: Demo;
  let contexts: Contexts;
  let found: Found;
  beforeAll(async () => {
    demo = await startDemo();
    contexts = await openContexts(demo);
    found = await findRecords(asking(contexts.manager, demo.url));
  }, 120_000);
  afterAll(() => demo.close());

  /** Each as the one it is for, in as many windows as are looked at at once. */
  const lookAt = async (visits: readonly Visit[]): Promise<(Seen & Visit)[]> => {
    const waiting = [...visits];
    const seen: (Seen & Visit)[] = [];
    const one = async () => {
      const pages = new Map<Reader, Page>();
      for (let visit = waiting.shift(); visit; visit = waiting.shift()) {
        const page = pages.get(visit.who) ?? (await contexts[visit.who].newPage());
        pages.set(visit.who, page);
        seen.push({ ...visit, ...(await look(page, demo.url, visit)) });
        page.removeAllListeners();
      }
      for (const page of pages.values()) await page.close();
    };
    await Promise.all(Array.from({ length: atOnce }, one));
    return seen;
  };

  const faultsOf = (seen: readonly (Seen & Visit)[]) =>
    seen.flatMap(({ who, path, faults }) => faults.map((fault) => `${who} ${path}: ${fault}`));

  it("is in the list, or is said to be none", () => {
    const calls = callsOf(rooms(new Hono<Env>()))
      .filter(({ method }) => method === "GET")
      .map(({ path }) => path);
    const listed = { ...notPages, ...pagesOf(found) };
    expect(calls.filter((path) => !listed[path]?.length)).toEqual([]);
    expect(Object.keys(listed).filter((path) => !calls.includes(path))).toEqual([]);
  });

  it("is free of faults in the light and in the dark, from a phone to a large desk", async () => {
    const pages = Object.entries(pagesOf(found));
    const seen = await lookAt(pages.flatMap(([, visits]) => visits));
    expect(faultsOf(seen)).toEqual([]);

    const titles = pages.map(([call, visits]) => {
      const own = seen.filter(({ at, ledOn }) => !ledOn && visits.some((one) => one.at === at));
      return [call, new Set(own.map(({ title }) => title))] as const;
    });
    const alike = titles.flatMap(([call, own], at) =>
      titles
        .slice(at + 1)
        .filter(([other]) => !sameThing.has(`${call} ${other}`))
        .filter(([, others]) => [...own].some((title) => others.has(title)))
        .map(([other]) => `${call} and ${other}: ${[...own].join(", ")}`),
    );
    expect(alike).toEqual([]);
  }, 900_000);

  it("is free of faults where it refuses", async () => {
    expect(faultsOf(await lookAt(refusals(found)))).toEqual([]);
  }, 300_000);
});
