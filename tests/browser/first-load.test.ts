import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Demo, desk, open, phone, startDemo } from "./demo.ts";

/** A weak phone in a basement: bytes a second down and up, and milliseconds until anything comes. */
const slow = { downloadThroughput: 50_000, uploadThroughput: 50_000, latency: 400 };

/** What a first visit may load, in bytes as they come compressed. */
const mostBytes = 80 * 1024;

/** How far what is read may jump: “good” by web.dev, “Cumulative Layout Shift”. */
const mostShift = 0.1;

type Shift = PerformanceEntry & { value: number; hadRecentInput: boolean };

/** Counts from the first moment on how far things jumped. */
const countShifts = (page: Page) =>
  page.addInitScript(() => {
    const counted = globalThis as unknown as { shifted: number };
    counted.shifted = 0;
    new PerformanceObserver((list) => {
      for (const { value, hadRecentInput } of list.getEntries() as Shift[])
        if (!hadRecentInput) counted.shifted += value;
    }).observe({ type: "layout-shift", buffered: true });
  });

const shiftedOn = (page: Page) =>
  page.evaluate(() => (globalThis as unknown as { shifted: number }).shifted);

describe("the first page", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it("loads under 80 KB compressed without pictures", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Network.enable");
    let bytes = 0;
    const kinds = new Map<string, string>();
    session.on("Network.responseReceived", ({ requestId, type }) => kinds.set(requestId, type));
    session.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
      if (kinds.get(requestId) !== "Image") bytes += encodedDataLength;
    });
    await page.goto(`${demo.url}/recipes`, { waitUntil: "networkidle" });
    expect(bytes).toBeGreaterThan(5_000);
    expect(bytes).toBeLessThan(mostBytes);
    const styles = await page.locator("link[rel=stylesheet]").count();
    expect(styles).toBe(1);
    await context.close();
  });

  it("is dressed and readable on a slow line before any script or picture is there", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    const session = await context.newCDPSession(page);
    await session.send("Network.enable");
    await session.send("Network.emulateNetworkConditions", { offline: false, ...slow });
    // What is not needed to read never comes at all.
    await page.route(/\.js$|\/photos\//, () => undefined);
    await page.goto(`${demo.url}/recipes`, { waitUntil: "commit" });
    await page.getByRole("heading", { level: 1 }).waitFor();
    await page.getByRole("link", { name: "Slack Water" }).first().waitFor();
    const paper = () => page.evaluate(() => getComputedStyle(document.body).backgroundColor);
    await expect.poll(paper, { timeout: 30_000 }).toBe("rgb(234, 240, 234)");
    const painted = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          new PerformanceObserver((list) => resolve(list.getEntries().length)).observe({
            type: "paint",
            buffered: true,
          });
        }),
    );
    expect(painted).toBeGreaterThan(0);
    await page.close({ runBeforeUnload: false });
    await context.close();
  });

  it.each(["/recipes", "/recipes/arctic-tern", "/tiles", "/start", "/chemistry"])(
    "does not jump while it comes in: %s",
    async (path) => {
      for (const viewport of [phone, desk]) {
        const context = await open(demo, { viewport });
        const page = await context.newPage();
        await countShifts(page);
        await page.goto(demo.url + path, { waitUntil: "load" });
        for (const picture of await page.locator("main img").all()) {
          if (!(await picture.isVisible())) continue;
          const { width, height } = await picture.evaluate((one) => ({
            width: one.getAttribute("width"),
            height: one.getAttribute("height"),
          }));
          expect({ path, width, height }).toEqual({
            path,
            width: expect.stringMatching(/^\d+$/),
            height: expect.stringMatching(/^\d+$/),
          });
        }
        await page.evaluate(() => window.scrollTo(0, document.body.scrollHeight));
        await page.evaluate(() => new Promise((done) => requestAnimationFrame(done)));
        expect(await shiftedOn(page)).toBeLessThan(mostShift);
        await context.close();
      }
    },
  );
});
