import type { Locator, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, desk, open, phone, startDemo } from "./demo.ts";

/** WCAG 2.2, 2.5.5: 44 by 44 CSS pixels. */
const touch = 44;

const sideways = (page: Page) =>
  page.evaluate(() =>
    Math.max(document.documentElement.scrollWidth - document.documentElement.clientWidth, 0),
  );

const tooSmall = (asked: Locator) =>
  asked.evaluateAll(
    (all, least) =>
      all
        .map((one) => one.getBoundingClientRect())
        .filter(({ width, height }) => width < least - 0.5 || height < least - 0.5).length,
    touch,
  );

describe("asking a number in a browser", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  const ways = [
    { script: true, viewport: desk },
    { script: true, viewport: phone },
    { script: false, viewport: desk },
    { script: false, viewport: phone },
  ];

  it.each(ways)(
    "leads to its page, script $script at $viewport.width px",
    async ({ script, viewport }) => {
      const context = await open(demo, { javaScriptEnabled: script, viewport });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await page.goto(`${demo.url}/recipes`);
      await page.locator("main table.strips th a").first().click();
      await page.getByText("The chemistry of revision").click();
      expect(await tooSmall(page.locator(".asked:visible"))).toBe(0);

      const silica = page.getByRole("link", {
        name: /^SiO2 in the unity formula, \d+\.\d{3} ± \d+\.\d{3} ?: where it comes from$/,
      });
      const value = await silica.locator(".quantity-value").textContent();
      await silica.click();
      await page.waitForURL(/\/numbers\/unity\.SiO2$/);
      expect(await page.locator("h1").textContent()).toContain("SiO2 in the unity formula");
      expect(await page.locator(".account-value").textContent()).toContain(value?.slice(0, 3));
      await page.locator(".contributions-drawing").waitFor();
      expect(await sideways(page)).toBe(0);
      expect(complaints).toEqual([]);
      // axe is a script itself; the page is the same without.
      if (script) expect(await axe(page)).toEqual([]);
      await context.close();
    },
  );

  it.each(ways)(
    "answers in the form itself, script $script at $viewport.width px",
    async ({ script, viewport }) => {
      const context = await open(demo, { javaScriptEnabled: script, viewport });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await page.goto(`${demo.url}/chemistry`);
      await page.getByLabel("Material, row 1", { exact: true }).fill("Potash feldspar");
      await page.getByLabel("Amount, row 1", { exact: true }).fill("60");
      await page.getByLabel("Material, row 2", { exact: true }).fill("Whiting");
      await page.getByLabel("Amount, row 2", { exact: true }).fill("20");
      await page.getByRole("button", { name: "Work out, and more rows" }).click();

      const lime = page.getByRole("button", { name: /^CaO in the unity formula, .*comes from$/ });
      await lime.waitFor();
      expect(await tooSmall(page.locator(".asked:visible"))).toBe(0);
      // Buttons are not printed, but these are the figures themselves.
      await page.emulateMedia({ media: "print" });
      expect(await lime.locator(".quantity-value").isVisible()).toBe(true);
      await page.emulateMedia({ media: "screen" });
      await lime.click();
      const answer = page.locator(".answer-to-asked");
      await answer.waitFor();
      expect(await answer.locator("h3").textContent()).toBe("CaO in the unity formula");
      expect(await answer.textContent()).toContain("What its ± is of");
      // Whoever pressed it is led there, and what was typed is still there.
      await page.waitForFunction(() => document.activeElement?.id === "asked-number");
      await expect.poll(() => inView(answer.locator("h3"), viewport.height)).toBe(true);
      expect(await page.getByLabel("Amount, row 2", { exact: true }).inputValue()).toBe("20");
      expect(await sideways(page)).toBe(0);
      expect(complaints).toEqual([]);
      // axe is a script itself; the page is the same without.
      if (script) expect(await axe(page)).toEqual([]);
      await context.close();
    },
  );
});

const inView = async (heading: Locator, height: number): Promise<boolean> => {
  const box = await heading.boundingBox();
  return box !== null && box.y >= -1 && box.y < height;
};
