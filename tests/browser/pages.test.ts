import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

/** Every page that the studio has, by who it is for. */
const pages = {
  visitor: [
    "/recipes",
    "/recipes?q=nothing-is-called-this",
    "/chemistry",
    "/cone-estimate",
    "/slurry",
    "/shelf-plan",
    "/families",
    "/families/the-terns",
    "/restate",
    "/restate?recipe=slack-water@2",
    "/powder-changes",
    "/compare",
    "/compare?left=slack-water@2&right=ebb-green",
    "/recomputations",
    "/materials",
    "/firings",
    "/kilns",
    "/bodies",
    "/cautions",
    "/about",
    "/session/new",
    "/nowhere",
  ],
  rukmini: [
    "/recipes/new",
    "/account",
    "/materials/new",
    "/firings/new",
    "/bodies/new",
    "/families/new",
    "/plans",
    "/shopping?low=on",
    "/shopping?budget=20",
    "/recipes/slack-water/cost?gravity=1.46",
    "/suppliers/fen-road-minerals",
  ],
  ines: [
    "/people",
    "/events",
    "/suppliers",
    "/suppliers/fen-road-minerals/terms",
    "/materials/quartz/lots/new",
    "/recipes/ebb-green/offers",
  ],
};

describe("every page", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  const look = async (page: Page, path: string) => {
    const complaints = complaintsOf(page);
    await page.goto(demo.url + path);
    // What is folded away has to hold as well.
    await page.evaluate(() => {
      for (const fold of document.querySelectorAll("details")) fold.open = true;
    });
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect({ path, violations: await axe(page), complaints, sideways: Math.max(wide, 0) }).toEqual({
      path,
      violations: [],
      complaints: [],
      sideways: 0,
    });
  };

  /** The pages of one recipe and one material of each kind that the demo has. */
  const found = async (page: Page): Promise<string[]> => {
    const linksOn = async (path: string, pattern: RegExp) => {
      await page.goto(demo.url + path);
      const links = await page
        .locator("main a")
        .evaluateAll((all) => all.map((link) => link.getAttribute("href") ?? ""));
      return [...new Set(links.filter((link) => pattern.test(link)))];
    };
    const recipes = await linksOn("/recipes", /^\/recipes\/(?!new)[a-z0-9-]+$/);
    const materials = await linksOn("/materials", /^\/materials\/(?!new)[a-z0-9-]+$/);
    const [recipe = ""] = recipes;
    return [
      ...recipes.slice(0, 4),
      `${recipe}/revisions`,
      `${recipe}/revisions/1`,
      `${recipe}/revisions/1/numbers/unity.SiO2`,
      ...materials.slice(0, 3),
      ...(await linksOn("/firings", /^\/firings\/(?!new)/)).slice(0, 1),
      ...(await linksOn("/kilns", /^\/kilns\//)).slice(0, 1),
      ...(await linksOn("/bodies", /^\/bodies\/(?!new)/)),
      ...(await linksOn(recipe, /^\/tiles\//)).slice(0, 1),
      ...(await linksOn("/recipes/ebb-green/offers", /^\/offers\//)),
    ];
  };

  it.each([
    { viewport: phone, colorScheme: "light" as const },
    { viewport: desk, colorScheme: "dark" as const },
  ])(
    "is free of faults at $viewport.width px in the $colorScheme",
    async (options) => {
      for (const [who, paths] of Object.entries(pages)) {
        const context = await open(demo, options);
        const page = await context.newPage();
        if (who !== "visitor") await signIn(page, demo.url, who);
        for (const path of paths) await look(page, path);
        if (who !== "rukmini") for (const path of await found(page)) await look(page, path);
        if (who === "ines") {
          const [recipe = ""] = await found(page);
          for (const path of ["revisions/new", "forks/new", "tiles/new"])
            await look(page, `${recipe}/${path}`);
        }
        await context.close();
      }
    },
    300_000,
  );

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
    expect(bytes).toBeLessThan(80 * 1024);
    await context.close();
  });

  it("can be told of in a picture", async () => {
    const folder = join(import.meta.dirname, "../../docs");
    await mkdir(folder, { recursive: true });
    const context = await open(demo);
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes`);
    await page.locator("main table.strips img").first().waitFor();
    const picture = await page.screenshot(
      process.env.PICTURE ? { path: join(folder, "library.png") } : {},
    );
    expect(picture.byteLength).toBeGreaterThan(10_000);
    await context.close();
  });
});
