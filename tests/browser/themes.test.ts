import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, type Demo, desk, open, phone, startDemo } from "./demo.ts";

type Scheme = "light" | "dark";

const paper: Record<Scheme, string> = { light: "rgb(234, 240, 234)", dark: "rgb(18, 24, 21)" };

describe("light and dark by choice", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  const background = (page: Page) =>
    page.evaluate(() => getComputedStyle(document.body).backgroundColor);
  const choose = async (page: Page, theme: string) => {
    await page.goto(`${demo.url}/reading`);
    await page.getByLabel("Pages are").selectOption(theme);
    await page.getByRole("button", { name: "Read it so" }).click();
    await page.getByText("Pages read so from now on.").waitFor();
  };

  it.each<[Scheme, Scheme]>([
    ["dark", "light"],
    ["light", "dark"],
  ])(
    "is %s on a device that is set to %s, and on paper always light",
    async (chosen, device) => {
      const context = await open(demo, { colorScheme: device, serviceWorkers: "block" });
      const page = await context.newPage();
      await page.goto(`${demo.url}/recipes`);
      expect(await background(page)).toBe(paper[device]);
      await choose(page, chosen);
      for (const path of ["/recipes", "/reading", "/cone-estimate", "/guide/cones"]) {
        await page.goto(demo.url + path);
        expect(await background(page), path).toBe(paper[chosen]);
        expect(await axe(page), path).toEqual([]);
        const scheme = await page.evaluate(
          () => getComputedStyle(document.documentElement).colorScheme,
        );
        expect(scheme, path).toBe(chosen);
      }
      await page.emulateMedia({ media: "print", colorScheme: device });
      const printed = await page.evaluate(() => {
        const style = getComputedStyle(document.documentElement);
        return [
          style.getPropertyValue("--paper"),
          style.getPropertyValue("--ink"),
          style.colorScheme,
        ];
      });
      expect(printed).toEqual(["#ffffff", "#000000", "light"]);
      await page.emulateMedia({ media: "screen", colorScheme: device });
      await choose(page, "system");
      expect(await background(page)).toBe(paper[device]);
      await context.close();
    },
    120_000,
  );

  it.each([phone, desk])(
    "shifts nothing and fits at $width px, with all chosen",
    async (viewport) => {
      const context = await open(demo, { viewport, serviceWorkers: "block" });
      const page = await context.newPage();
      await page.goto(`${demo.url}/reading`);
      await page.getByLabel("Weights").selectOption("lb");
      await page.getByLabel("Temperatures").selectOption("F");
      await page.getByLabel("How hot").selectOption("temperature");
      await page.getByLabel("As they are called in").selectOption({ index: 1 });
      await page.getByLabel("Iron counts as").selectOption("FeO");
      await page.getByLabel("Pages are").selectOption("dark");
      await page.getByRole("button", { name: "Read it so" }).click();
      await page.goto(`${demo.url}/recipes`);
      const recipe = await page.locator(".strip-name a").first().getAttribute("href");
      for (const path of [`${recipe}`, `${recipe}/batch`, "/materials", "/reading"]) {
        await page.goto(demo.url + path);
        const shifted = await page.evaluate(
          () =>
            new Promise<number>((done) => {
              let sum = 0;
              new PerformanceObserver((list) => {
                for (const entry of list.getEntries())
                  sum += (entry as PerformanceEntry & { value: number }).value;
              }).observe({ type: "layout-shift", buffered: true });
              requestAnimationFrame(() => requestAnimationFrame(() => done(sum)));
            }),
        );
        expect(shifted, path).toBe(0);
        const wide = await page.evaluate(
          () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
        );
        expect(wide, path).toBeLessThanOrEqual(0);
        expect(await axe(page), path).toEqual([]);
      }
      await context.close();
    },
    120_000,
  );
});
