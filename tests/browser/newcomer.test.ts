import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { guide } from "../../views/guide/guide.ts";
import { axe, complaintsOf, type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

const sideways = (page: Page) =>
  page.evaluate(() =>
    Math.max(document.documentElement.scrollWidth - document.documentElement.clientWidth, 0),
  );

/** Marks of “decorative only” on the page that stand without what they rule out beside them. */
const bareMarks = (page: Page) =>
  page
    .locator("main .use-decorative")
    .evaluateAll((marks) =>
      marks
        .map((mark) => mark.parentElement?.textContent ?? "")
        .filter((said) => !/food, drink, lips or cutlery touch/.test(said)),
    );

describe("a newcomer", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it.each([true, false])(
    "is three clicks from a glaze for a mug that is open and can be printed, script %s",
    async (javaScriptEnabled) => {
      const context = await open(demo, { viewport: phone, javaScriptEnabled });
      const page = await context.newPage();
      await signIn(page, demo.url, "marta");
      await page.goto(`${demo.url}/`);
      expect(await bareMarks(page)).toEqual([]);
      await page.locator("main").getByRole("link", { name: "What are you making?" }).click();
      await page.getByRole("link", { name: "Mug, bowl or plate" }).click();
      await page.getByRole("heading", { name: "Glazes for: mug, bowl or plate" }).waitFor();

      const inStock = page.locator("h2", { hasText: "In stock now" }).locator("+ table.strips");
      const first = inStock.locator("tbody tr").first();
      expect(await first.textContent()).toMatch(/approved\s+for functional ware.*\d l in [A-Z]/s);
      expect(await page.locator("main table.strips .use-decorative").count()).toBe(0);
      expect(await page.getByText("decorative only: not where food").count()).toBe(1);
      const name = (await first.getByRole("link").textContent()) ?? "";
      await first.getByRole("link").click();

      await page.getByRole("heading", { level: 1, name }).waitFor();
      const main = page.locator("main");
      await main.getByText("This studio approved it for functional ware").first().waitFor();
      expect(await main.getByText("may be used as its revision is approved").count()).toBe(1);
      expect(await bareMarks(page)).toEqual([]);
      expect(await main.getByRole("button", { name: "Print this page" }).count()).toBe(
        javaScriptEnabled ? 1 : 0,
      );
      await page.emulateMedia({ media: "print" });
      expect(await main.locator("table.lines:visible").count()).toBeGreaterThan(0);
      await context.close();
    },
    60_000,
  );

  it("reads what decorative only rules out, wherever the way leads to one", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    await signIn(page, demo.url, "marta");
    await page.goto(`${demo.url}/start`);
    await page.getByRole("link", { name: "Planter or vase" }).click();
    const marks = page.locator("main table.strips .use-decorative");
    expect(await marks.count()).toBeGreaterThan(0);
    expect(await bareMarks(page)).toEqual([]);
    expect(await page.getByText("within 20 mm of it").count()).toBe(1);
    const row = page.locator("tbody tr", { has: page.locator(".use-decorative") }).first();
    await row.getByRole("link").first().click();
    await page.getByText("within 20 mm of it").first().waitFor();
    expect(await bareMarks(page)).toEqual([]);
    await context.close();
  });

  it("sees nothing of buckets before signing in", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    await page.goto(`${demo.url}/start?making=mug-or-bowl`);
    expect(await page.locator("main table.strips tbody tr").count()).toBeGreaterThan(0);
    expect(await page.getByText("In stock now").count()).toBe(0);
    await context.close();
  });

  it.each([
    { viewport: phone, colorScheme: "light" as const },
    { viewport: desk, colorScheme: "dark" as const },
  ])(
    "has a guide free of faults at $viewport.width px in the $colorScheme",
    async (look) => {
      const context = await open(demo, look);
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      const paths = [
        ...guide.map(({ slug }) => `/guide/${slug}`),
        ...["/guide", "/guide/names", "/guide/names?region=Germany", "/guide/names?region=Nowhere"],
        ...["/start", "/start?making=mug-or-bowl", "/start?making=tile"],
      ];
      for (const path of paths) {
        await page.goto(demo.url + path);
        const found = { violations: await axe(page), sideways: await sideways(page) };
        expect({ path, ...found }).toEqual({ path, violations: [], sideways: 0 });
      }
      expect(complaints).toEqual([]);
      await context.close();
    },
    120_000,
  );

  it("comes from an underlined word to its section, and from page to page", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    await page.goto(`${demo.url}/slurry`);
    await page.getByRole("button", { name: "specific gravity" }).click();
    await page.getByRole("link", { name: "More in the guide" }).click();
    await page.waitForURL(/\/guide\/bucket#gravity$/);
    await page.goto(`${demo.url}/guide/${guide[0]?.slug}`);
    for (const { title } of guide.slice(1)) {
      await page.getByRole("link", { name: `Next: ${title}` }).click();
      await page.getByRole("heading", { level: 1, name: title }).waitFor();
    }
    await context.close();
  });
});
