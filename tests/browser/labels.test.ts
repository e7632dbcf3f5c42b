import jsqr from "jsqr";
import type { Page } from "playwright-core";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { labelSizes, placesOf } from "../../views/labels/sizes.ts";
import { axe, complaintsOf, type Demo, open, phone, signIn, startDemo } from "./demo.ts";

// At 96 CSS pixels an inch.
const millimetres = (pixels: number) => (pixels / 96) * 25.4;

/** The least that a name is printed at, and a code without its empty border, in millimetres. */
const least: Record<(typeof labelSizes)[number]["id"], { name: number; code: number }> = {
  a4: { name: 15, code: 25 },
  letter: { name: 15, code: 25 },
  "a4-2x4": { name: 6, code: 18 },
  "letter-2x5": { name: 5.5, code: 18 },
  "a4-2x7": { name: 4.5, code: 18 },
  "a4-3x7": { name: 3.5, code: 18 },
};

/** jsqr says so of itself, and its types say otherwise. */
const readCode = jsqr as unknown as typeof jsqr.default;

type Bucket = { id: string; name: string };

describe("labels and what their codes open", () => {
  let demo: Demo;
  let tub: Bucket;
  beforeAll(async () => {
    demo = await startDemo();
    const context = await open(demo);
    const page = await context.newPage();
    await signIn(page, demo.url, "ines");
    const headers = { accept: "application/json" };
    const answer = await page.request.get(`${demo.url}/buckets`, { headers });
    const { items } = (await answer.json()) as { items: Bucket[] };
    const found = items.find(({ name }) => name === "Slack Water, big tub");
    if (!found) throw new Error("the demo has lost its big tub");
    tub = found;
    await context.close();
  }, 120_000);
  afterAll(() => demo.close());

  it("prints on one sheet of each paper, all of it on its label, with a code to read", async () => {
    const context = await open(demo, { viewport: { width: 900, height: 1200 } });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await signIn(page, demo.url, "ines");
    for (const size of labelSizes) {
      const asked = `size=${size.id}&copies=${placesOf(size)}`;
      await page.goto(`${demo.url}/buckets/${tub.id}/label?${asked}`);
      const pdf = (await page.pdf({ preferCSSPageSize: true })).toString("latin1");
      expect([size.id, pdf.match(/\/Type\s*\/Page\b/g)?.length]).toEqual([size.id, 1]);
      const paper = size.id.startsWith("a4") ? [210, 297] : [215.9, 279.4];
      expect([size.id, ...paperOf(pdf)]).toEqual([size.id, ...paper.map(Math.round)]);

      await page.emulateMedia({ media: "print" });
      const printed = await measure(page);
      expect(printed.count).toBe(placesOf(size));
      expect(printed.spill).toBeLessThanOrEqual(0);
      expect(millimetres(printed.name)).toBeGreaterThanOrEqual(least[size.id].name);
      expect(millimetres(printed.code)).toBeGreaterThanOrEqual(least[size.id].code);
      expect([size.id, await codeOf(page)]).toEqual([size.id, `${demo.url}/b/${tub.id}`]);
      await page.emulateMedia({ media: null });
    }
    expect(complaints).toEqual([]);
    expect(await axe(page)).toEqual([]);
    await context.close();
  });

  it.each(["light", "dark"] as const)(
    "opens a page that suits a phone, when it is %s",
    async (colorScheme) => {
      const context = await open(demo, { viewport: phone, colorScheme });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      for (const who of ["visitor", "marta"]) {
        if (who !== "visitor") await signIn(page, demo.url, who);
        await page.goto(`${demo.url}/b/${tub.id}`);
        await page.getByText("May I use it on a mug?").waitFor();
        const { scrollWidth } = await page.evaluate(() => ({
          scrollWidth: document.documentElement.scrollWidth,
        }));
        expect(scrollWidth).toBe(phone.width);
        expect(await page.getByRole("button", { name: "I used it" }).count()).toBe(
          who === "visitor" ? 0 : 1,
        );
        expect(await axe(page)).toEqual([]);
      }
      expect(complaints).toEqual([]);
      await context.close();
    },
  );

  it("takes a use with one tap and gives it back, without script", async () => {
    const context = await open(demo, { viewport: phone, javaScriptEnabled: false });
    const page = await context.newPage();
    await signIn(page, demo.url, "marta");
    await page.goto(`${demo.url}/b/${tub.id}`);
    await page.getByLabel("What you glaze with it").fill("A jug");
    await page.getByRole("button", { name: "I used it" }).click();
    await page.getByText(/^You used it.*: A jug\.$/).waitFor();
    await page.goto(`${demo.url}/uses`);
    expect(await page.getByText("A jug").count()).toBe(1);
    await page.goto(`${demo.url}/b/${tub.id}`);
    await page.getByRole("button", { name: "Take that back" }).click();
    await page.getByRole("button", { name: "I used it", exact: true }).waitFor();
    expect(await page.getByText("A jug").count()).toBe(0);
    await context.close();
  });
});

/** Width and height of a PDF's page in whole millimetres, from its 72nds of an inch. */
const paperOf = (pdf: string): number[] =>
  (/\/MediaBox\s*\[0 0 ([\d.]+) ([\d.]+)\]/.exec(pdf) ?? [])
    .slice(1)
    .map((points) => Math.round((Number(points) / 72) * 25.4));

/** The first label as it prints: how far its last line is past its end, and what is large on it. */
const measure = (page: Page) =>
  page.evaluate(() => {
    const labels = document.querySelectorAll(".label");
    const [label] = labels;
    const code = label?.querySelector<SVGElement>(".label-code");
    const name = label?.querySelector(".label-name");
    if (!label?.lastElementChild || !code || !name) throw new Error("there is no label");
    const modules = Number(code.getAttribute("viewBox")?.split(" ")[2]);
    return {
      count: labels.length,
      spill:
        label.lastElementChild.getBoundingClientRect().bottom -
        label.getBoundingClientRect().bottom,
      name: Number.parseFloat(getComputedStyle(name).fontSize),
      code: (code.getBoundingClientRect().width * (modules - 8)) / modules,
    };
  });

async function codeOf(page: Page): Promise<string | undefined> {
  const shot = await page.locator(".label").first().screenshot();
  const { data, info } = await sharp(shot)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return readCode(new Uint8ClampedArray(data), info.width, info.height)?.data;
}
