import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { complaintsOf, type Demo, open, startDemo } from "./demo.ts";

type Manifest = {
  name: string;
  id: string;
  start_url: string;
  display: string;
  icons: { src: string; sizes: string; type: string; purpose: string }[];
};

describe("the studio among somebody's apps", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it("tells the browser its name, where it begins and what it looks like", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await page.goto(`${demo.url}/recipes`);
    const session = await context.newCDPSession(page);
    const { errors, data } = await session.send("Page.getAppManifest");
    expect(errors).toEqual([]);
    const manifest = JSON.parse(data ?? "") as Manifest;
    expect(manifest).toMatchObject({ name: "Saltmarsh Lane Studio", id: "/", start_url: "/" });
    expect(["standalone", "minimal-ui"]).toContain(manifest.display);

    expect(manifest.icons.map(({ purpose }) => purpose)).toContain("maskable");
    const touch = await page.locator("link[rel=apple-touch-icon]").getAttribute("href");
    const drawn = [...manifest.icons, { src: touch ?? "", sizes: "180x180", type: "image/png" }];
    for (const { src, sizes, type } of drawn) {
      const answer = await page.request.get(demo.url + src);
      expect(answer.headers()["content-type"]).toBe(type);
      const { width, height, format } = await sharp(await answer.body()).metadata();
      expect({ format, sizes: `${width}x${height}` }).toEqual({ format: "png", sizes });
    }
    expect((await page.request.get(`${demo.url}/icons/nothing.png`)).status()).toBe(404);
    expect(complaints).toEqual([]);
    await context.close();
  });
});
