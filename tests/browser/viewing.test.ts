import type { Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, open, phone, signIn, startDemo } from "./demo.ts";

describe("a tile's pictures and its colour", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  const json = async <T>(page: Page, path: string): Promise<T> =>
    (await (
      await page.request.get(demo.url + path, { headers: { accept: "application/json" } })
    ).json()) as T;

  /** A tile of the demo with a second picture: a grey card on its left, a glaze on its right. */
  const tileWithTwo = async (page: Page) => {
    const { tiles } = await json<{ tiles: { id: string; photos: object[] }[] }>(
      page,
      "/recipes/slack-water",
    );
    const tile = tiles.find(({ photos }) => photos.length > 0)?.id ?? "";
    const glaze = { width: 300, height: 400, channels: 3 as const, background: "#93a383" };
    const card = await sharp({ create: { ...glaze, background: "#808080" } })
      .png()
      .toBuffer();
    const buffer = await sharp({ create: { ...glaze, width: 600 } })
      .composite([{ input: card, left: 0, top: 0 }])
      .jpeg()
      .toBuffer();
    await page.request.post(`${demo.url}/tiles/${tile}/photos`, {
      headers: { origin: demo.url, accept: "application/json" },
      multipart: { photo: { name: "two.jpg", mimeType: "image/jpeg", buffer }, alt: "Two halves" },
    });
    const { photos } = await json<{ photos: { id: string }[] }>(page, `/tiles/${tile}`);
    return { tile: `/tiles/${tile}`, first: photos[0]?.id ?? "", last: photos.at(-1)?.id ?? "" };
  };

  it("go by keys, by links and back, and stand on a phone without moving sideways", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await signIn(page, demo.url, "ines");
    const { tile, first, last } = await tileWithTwo(page);
    await page.goto(`${demo.url}${tile}`);
    await page.locator(".tile-photo").first().click();
    await page.waitForURL(`**${tile}/photos/${first}`);
    expect(await page.getByRole("link", { name: "Next" }).isVisible()).toBe(true);
    expect(await axe(page)).toEqual([]);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect(wide).toBeLessThanOrEqual(0);
    await page.keyboard.press("ArrowRight");
    await page.waitForURL(`**${tile}/photos/${last}`);
    await page.getByRole("link", { name: "Previous" }).click();
    await page.waitForURL(`**${tile}/photos/${first}`);
    await page.keyboard.press("Escape");
    await page.waitForURL(`**${tile}`);
    expect(complaints).toEqual([]);
    await context.close();
  }, 60_000);

  it("are swiped on a phone", async () => {
    const context = await open(demo, { viewport: phone, hasTouch: true });
    const page = await context.newPage();
    await signIn(page, demo.url, "ines");
    const { tile, first, last } = await tileWithTwo(page);
    await page.goto(`${demo.url}${tile}/photos/${first}`);
    const swipe = async (from: number, to: number) => {
      const touches = await context.newCDPSession(page);
      const y = 400;
      await touches.send("Input.dispatchTouchEvent", {
        type: "touchStart",
        touchPoints: [{ x: from, y }],
      });
      await touches.send("Input.dispatchTouchEvent", {
        type: "touchMove",
        touchPoints: [{ x: to, y }],
      });
      await touches.send("Input.dispatchTouchEvent", { type: "touchEnd", touchPoints: [] });
    };
    await swipe(300, 80);
    await page.waitForURL(`**${tile}/photos/*`);
    await page.waitForFunction((path) => !location.pathname.endsWith(path), first);
    await page.goto(`${demo.url}${tile}/photos/${last}`);
    await swipe(80, 300);
    await page.waitForFunction((path) => !location.pathname.endsWith(path), last);
    await context.close();
  }, 60_000);

  it("and what a bucket's proof tiles tell hold by axe, in the light and in the dark", async () => {
    for (const colorScheme of ["light", "dark"] as const) {
      const context = await open(demo, { viewport: phone, colorScheme });
      const page = await context.newPage();
      await signIn(page, demo.url, "ines");
      const { items } = await json<{ items: { id: string; name: string }[] }>(page, "/buckets");
      const tub = items.find(({ name }) => name === "Slack Water, big tub")?.id ?? "";
      const { proofs } = await json<{ proofs: { tile: string }[] }>(page, `/buckets/${tub}`);
      const [one, , other] = proofs.map(({ tile }) => tile);
      for (const path of [
        `/buckets/${tub}`,
        `/tiles/${one}?against=${other}`,
        `/tiles/${one}/colours`,
      ]) {
        await page.goto(demo.url + path);
        expect({ path, violations: await axe(page) }).toEqual({ path, violations: [] });
      }
      await context.close();
    }
  }, 60_000);

  it("is read from a picture by two presses without a script", async () => {
    const context = await open(demo, { viewport: phone, javaScriptEnabled: false });
    const page = await context.newPage();
    await signIn(page, demo.url, "ines");
    const { tile, last } = await tileWithTwo(page);
    await page.goto(`${demo.url}${tile}/photos/${last}/colour`);
    const shown = await page.locator("input[type=image]").boundingBox();
    expect([shown?.width, Math.round(shown?.height ?? 0)]).toEqual([280, 187]);
    await page.locator("input[type=image]").click({ position: { x: 70, y: 90 } });
    await page.getByRole("heading", { name: "Second: press the glaze" }).waitFor();
    await page.locator("input[type=image]").click({ position: { x: 210, y: 90 } });
    expect(await page.getByLabel("Glaze, from the left").inputValue()).toBe("0.75");
    await page.getByRole("button", { name: "Put this colour on record" }).click();
    await page.waitForURL(`**${tile}/colours`);
    const { items } = await json<{ items: { from: string; lab: number[] }[] }>(
      page,
      `${tile}/colours`,
    );
    expect(items[0]).toMatchObject({ from: "camera" });
    // The card has L* 54 and is taken for 50: the glaze, of 65.7, comes out somewhat darker.
    expect(items[0]?.lab[0]).toBeGreaterThan(58);
    expect(items[0]?.lab[0]).toBeLessThan(66);
    await context.close();
  }, 60_000);
});
