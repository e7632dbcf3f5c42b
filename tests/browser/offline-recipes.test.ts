import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Ask, asking } from "./asking.ts";
import { axe, complaintsOf, type Demo, open, phone, signIn, startDemo } from "./demo.ts";

type Copy = { path: string; text: string };

/** What the worker keeps, with the words of what is a page. */
const copiesIn = (page: Page): Promise<Copy[]> =>
  page.evaluate(async () => {
    if (!(await caches.has("seen-recipes"))) return [];
    const cache = await caches.open("seen-recipes");
    const all = (await cache.keys()).map(async (request) => {
      const copy = await cache.match(request);
      const isPage = copy?.headers.get("Content-Type")?.startsWith("text/html");
      return { path: new URL(request.url).pathname, text: isPage ? await copy?.text() : "" };
    });
    return (await Promise.all(all)) as Copy[];
  });

/** Until what is kept of a recipe is so, and all that it shows is kept too. */
const isKept = (page: Page, path: string, has = /<h1>/) =>
  expect
    .poll(
      async () => {
        const copies = await copiesIn(page);
        const text = copies.find((copy) => copy.path === path)?.text ?? "";
        const pictures = [...text.matchAll(/\/photos\/([0-9a-f]{64})/g)];
        return (
          has.test(text) &&
          copies.some((copy) => copy.path === "/offline") &&
          pictures.every(([, sha]) => copies.some((copy) => copy.path === `/photos/${sha}/200`))
        );
      },
      { timeout: 30_000 },
    )
    .toBe(true);

const see = async (page: Page, demo: Demo, path: string) => {
  await page.goto(demo.url + path);
  await isKept(page, path);
};

const stamp = /^As of \d+ \w+ \d{4}( at)?,? \d\d:\d\d UTC; ask whether it still holds\./;

const stampOn = (page: Page) => page.getByRole("status").filter({ hasText: stamp });

describe("a recipe where there is no network", () => {
  let demo: Demo;
  let member: { context: BrowserContext; ask: Ask };
  beforeAll(async () => {
    demo = await startDemo();
    const context = await open(demo, { serviceWorkers: "block" });
    await signIn(await context.newPage(), demo.url, "rukmini");
    member = { context, ask: asking(context, demo.url) };
  }, 120_000);
  afterAll(() => demo.close());

  it("is shown as it was seen, with its day, its standing and its pictures", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await see(page, demo, "/recipes/common-tern");
    await see(page, demo, "/recipes/slack-water");
    await context.setOffline(true);

    await page.goto(`${demo.url}/recipes/common-tern?grams=500`);
    await stampOn(page).waitFor();
    await page.getByRole("heading", { level: 1, name: "Common Tern" }).waitFor();
    expect(await page.locator("#use .standing-frame").first().textContent()).not.toBe("");
    const picture = page.locator("main img").first();
    await picture.scrollIntoViewIfNeeded();
    await expect
      .poll(() => picture.evaluate((one) => (one as HTMLImageElement).naturalWidth), {
        timeout: 20_000,
      })
      .toBeGreaterThan(0);
    expect(await page.evaluate(() => getComputedStyle(document.body).backgroundColor)).not.toBe(
      "rgba(0, 0, 0, 0)",
    );
    for (const colorScheme of ["light", "dark"] as const) {
      await page.emulateMedia({ colorScheme });
      expect(await axe(page)).toEqual([]);
    }

    await page.goto(`${demo.url}/materials`);
    await page.getByRole("heading", { name: "Kept for when there is no network" }).waitFor();
    const kept = await page.locator("ul.kept a").allInnerTexts();
    expect(kept).toEqual([
      expect.stringMatching(/^Slack Water, revision \d: \w/),
      expect.stringMatching(/^Common Tern, revision \d: \w/),
    ]);
    expect(await axe(page)).toEqual([]);
    await page.getByRole("link", { name: /^Slack Water/ }).click();
    await stampOn(page).waitFor();
    expect(complaints.filter((each) => !/ERR_INTERNET_DISCONNECTED|ERR_FAILED/.test(each))).toEqual(
      [],
    );
    await context.close();
  });

  it("holds nothing of who was signed in, no private recipe, and goes when they sign out", async () => {
    const { slug: own } = await member.ask<{ slug: string }>("/recipes/ebb-green/forks", {
      name: "Only Rukmini's",
    });
    await member.ask(`/recipes/${own}/visibility`, { shownTo: "private" });
    const context = await open(demo);
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes/ebb-green`);
    await isKept(page, "/recipes/ebb-green");
    await signIn(page, demo.url, "rukmini");
    await expect.poll(() => copiesIn(page), { timeout: 20_000 }).toEqual([]);

    await page.goto(`${demo.url}/recipes/${own}`);
    await page.getByRole("heading", { level: 1, name: "Only Rukmini's" }).waitFor();
    await see(page, demo, "/recipes/slack-water");
    await page.goto(`${demo.url}/buckets`);
    const copies = await copiesIn(page);
    const visitor = await open(demo, { serviceWorkers: "block" });
    for (const { path, text } of copies) {
      expect((await visitor.request.get(demo.url + path)).status()).toBe(200);
      expect(text).not.toMatch(/data-viewer|Only Rukmini|Put the note|href="\/account"/);
    }
    expect(copies.map(({ path }) => path).filter((path) => path.startsWith("/recipes"))).toEqual([
      "/recipes/slack-water",
    ]);
    // Asked for by a page that is not to be kept, the worker keeps nothing of it either.
    await page.evaluate(async (path) => {
      (await navigator.serviceWorker.ready).active?.postMessage({ seen: path });
    }, `/recipes/${own}`);
    await see(page, demo, "/recipes/common-tern");
    expect((await copiesIn(page)).map(({ path }) => path)).not.toContain(`/recipes/${own}`);

    await page.goto(`${demo.url}/account`);
    await page.getByRole("button", { name: "Sign out", exact: true }).click();
    await page.waitForURL("**/session/new");
    expect(await copiesIn(page)).toEqual([]);
    await context.close();
    await visitor.close();
  });

  it("is looked at again with a network, and says then that it was withdrawn", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    await see(page, demo, "/recipes/slack-water");
    await see(page, demo, "/recipes/common-tern");
    await context.setOffline(true);
    await page.goto(`${demo.url}/recipes/slack-water`);
    await stampOn(page).waitFor();
    await member.ask("/recipes/slack-water/withdrawal", { why: "It shivers on porcelain." });
    await page.goto(`${demo.url}/recipes/common-tern`);
    await stampOn(page).waitFor();

    await context.setOffline(false);
    await stampOn(page).waitFor({ state: "detached" });
    await isKept(page, "/recipes/slack-water", /It shivers on porcelain/);
    await member.ask("/recipes/slack-water/withdrawal/end", { why: "It does not." });
    await context.close();
  });

  it("keeps the last thirty", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    await see(page, demo, "/recipes/slack-water");
    await page.evaluate(async () => {
      const cache = await caches.open("seen-recipes");
      const copy = await cache.match("/recipes/slack-water");
      for (let n = 1; n <= 40; n += 1) {
        const headers = new Headers(copy?.headers);
        headers.set("X-Seen", String(n));
        await cache.put(`/recipes/made-up-${n}`, new Response("<h1></h1>", { headers }));
      }
    });
    await see(page, demo, "/recipes/common-tern");
    const kept = async () =>
      (await copiesIn(page)).map(({ path }) => path).filter((path) => path.startsWith("/recipes/"));
    await expect.poll(async () => (await kept()).length, { timeout: 20_000 }).toBe(30);
    expect(await kept()).not.toContain("/recipes/made-up-12");
    expect(await kept()).toContain("/recipes/made-up-13");
    await context.close();
  });
});
