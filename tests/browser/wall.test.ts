import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, desk, open, phone, startDemo } from "./demo.ts";

/** WCAG 2.2, 2.5.5: 44 by 44 CSS pixels. */
const touch = 44;

/** The size of text below which nothing on the wall goes, in CSS pixels. */
const smallest = 14;

const sideways = (page: Page) =>
  page.evaluate(() =>
    Math.max(document.documentElement.scrollWidth - document.documentElement.clientWidth, 0),
  );

const tooSmall = (asked: Locator) =>
  asked.evaluateAll(
    (all, least) =>
      all
        .filter((one) => {
          const { width, height } = one.getBoundingClientRect();
          return width < least - 0.5 || height < least - 0.5;
        })
        .map((one) => one.outerHTML.slice(0, 120)),
    touch,
  );

const smallText = (page: Page) =>
  page.evaluate(
    (least) =>
      [...document.querySelectorAll("main *")]
        .filter((one) => [...one.childNodes].some((node) => node.nodeType === Node.TEXT_NODE))
        .filter((one) => Number.parseFloat(getComputedStyle(one).fontSize) < least)
        .map((one) => one.textContent),
    smallest,
  );

/** Counts every shift from before the page is there, as Layout Instability defines it. */
const watchShifts = (page: Page) =>
  page.addInitScript(() => {
    const counted = globalThis as unknown as { shifted: number };
    counted.shifted = 0;
    new PerformanceObserver((list) => {
      for (const entry of list.getEntries())
        counted.shifted += (entry as PerformanceEntry & { value: number }).value;
    }).observe({ type: "layout-shift", buffered: true });
  });

const shifts = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { shifted: number }).shifted);

/** Down the page a screen at a time, until every picture on it is there. */
async function scrollThrough(page: Page): Promise<void> {
  for (const picture of await page.locator("main img").all()) {
    await picture.scrollIntoViewIfNeeded();
    await picture.evaluate((img: HTMLImageElement) => img.decode());
  }
}

describe("the wall of tiles in a browser", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  const looks = [phone, desk].flatMap((viewport) =>
    (["light", "dark"] as const).map((colorScheme) => ({ viewport, colorScheme })),
  );

  it.each(looks)("is free of faults at $viewport.width px in the $colorScheme", async (look) => {
    const context = await open(demo, look);
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    for (const path of [
      "/tiles",
      "/tiles?cone=6&defect=none",
      "/tiles?defect=shivering",
      "/tiles?colour=turquoise",
      "/tiles?colour=&colour=50,0",
      "/tiles/sheet",
      "/tiles/sheet?defect=shivering",
    ]) {
      await page.goto(demo.url + path);
      for (const fold of await page.locator("main details:not([open]) > summary").all())
        await fold.click();
      const found = { violations: await axe(page), sideways: await sideways(page) };
      expect({ path, ...found }).toEqual({ path, violations: [], sideways: 0 });
      const pressed = page.locator(
        "main :is(summary, button, select, input:not([type=radio]), label:has(input), .button, .kiln-pages a, .wall-picture, .wall-name a, .contact-name a):visible",
      );
      expect({ path, small: await tooSmall(pressed) }).toEqual({ path, small: [] });
      expect({ path, small: await smallText(page) }).toEqual({ path, small: [] });
    }
    expect(complaints).toEqual([]);
    await context.close();
  });

  it.each([
    { viewport: phone, across: 2 },
    { viewport: desk, across: 5 },
  ])(
    "keeps its places while pictures come, at $viewport.width px",
    async ({ viewport, across }) => {
      const context = await open(demo, { viewport });
      const page = await context.newPage();
      await watchShifts(page);
      await page.goto(`${demo.url}/tiles`);
      await scrollThrough(page);
      expect(await page.locator("main img").count()).toBeGreaterThan(20);
      expect(await shifts(page)).toBeLessThan(0.01);
      const tops = await page
        .locator(".wall-tile")
        .evaluateAll((all) => all.map((one) => one.getBoundingClientRect().top));
      expect(tops.filter((top) => top === tops[0])).toHaveLength(across);
      const eager = await page
        .locator(".wall-tile")
        .evaluateAll((all) =>
          all.flatMap((tile, place) => (tile.querySelector("img[loading=eager]") ? [place] : [])),
        );
      expect(Math.max(...eager)).toBeLessThan(5);
      await context.close();
    },
  );

  it.each([
    { script: true, viewport: phone },
    { script: false, viewport: phone },
    { script: false, viewport: desk },
  ])(
    "is narrowed and printed from, script $script at $viewport.width px",
    async ({ script, viewport }) => {
      const context = await open(demo, { javaScriptEnabled: script, viewport });
      const page = await context.newPage();
      await page.goto(`${demo.url}/recipes`);
      await page.getByRole("link", { name: "Tiles: find by picture" }).click();
      await page.locator(".wall-tile").first().waitFor();
      const all = await page.locator(".wall-tile").count();
      await page.getByText("Find by cone, body").click();
      await page.getByLabel("Body", { exact: true }).selectOption({ label: "Heron porcelain" });
      await page.getByRole("button", { name: "Show these" }).click();
      await page.getByText("On Heron porcelain.").waitFor();
      const some = await page.locator(".wall-tile").count();
      expect(some).toBeGreaterThan(0);
      expect(some).toBeLessThan(all);

      await page.getByRole("link", { name: "Contact sheet of these, to print" }).click();
      await page.getByRole("heading", { name: "Contact sheet" }).waitFor();
      expect(await page.locator(".contact-tile").count()).toBe(some);
      const print = page.getByRole("button", { name: "Print this page" });
      if (script) await print.waitFor();
      else expect(await print.count()).toBe(0);
      await page.getByRole("link", { name: "Back to the wall" }).click();
      await page.getByText("On Heron porcelain.").waitFor();
      await page.getByText("Find by cone, body").click();
      await page.getByRole("radio", { name: "green" }).check();
      await page.getByRole("button", { name: "Show these" }).click();
      await page.getByText("On Heron porcelain, nearest to green first.").waitFor();
      await context.close();
    },
  );

  it("prints three by five to a leaf of A4 and nothing else", async () => {
    const context = await open(demo, { viewport: { width: 718, height: 1047 } });
    const page = await context.newPage();
    await page.goto(`${demo.url}/tiles/sheet`);
    const tiles = await page.locator(".contact-tile").count();
    expect(tiles).toBeGreaterThan(15);
    const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
    const leaves = pdf.match(/\/MediaBox \[0 0 594\.9\d* 841\.9\d*\]/g) ?? [];
    expect(leaves).toHaveLength(Math.ceil(tiles / 15));

    await page.emulateMedia({ media: "print" });
    expect(await page.locator(":is(nav, button, h1, .masthead, .colophon):visible").count()).toBe(
      0,
    );
    const places = await page
      .locator(".contact-leaf")
      .first()
      .locator(".contact-tile")
      .evaluateAll((all) => all.map((one) => one.getBoundingClientRect()));
    expect(new Set(places.map(({ left }) => left)).size).toBe(3);
    expect(new Set(places.map(({ top }) => top)).size).toBe(5);
    const cut = await page
      .locator(".contact-tile")
      .evaluateAll((all) => all.filter((one) => one.scrollHeight > one.clientHeight + 1).length);
    expect(cut).toBe(0);
    await context.close();
  });
});
