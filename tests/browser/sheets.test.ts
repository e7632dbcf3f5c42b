import { afterAll, beforeAll, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, open, phone, signIn, startDemo } from "./demo.ts";

let demo: Demo;
beforeAll(async () => {
  demo = await startDemo();
}, 120_000);
afterAll(() => demo.close());

const pagesOf = (pdf: Buffer) => pdf.toString("latin1").match(/\/Type\s*\/Page\b/g)?.length;

it("prints the batch sheet of every recipe on one page, in large type", async () => {
  const context = await open(demo, { viewport: { width: 900, height: 1200 } });
  const page = await context.newPage();
  const complaints = complaintsOf(page);
  await signIn(page, demo.url, "ines");
  const headers = { accept: "application/json" };
  const answer = await page.request.get(`${demo.url}/recipes`, { headers });
  const { items } = (await answer.json()) as { items: { slug: string }[] };
  expect(items.length).toBeGreaterThan(10);
  for (const { slug } of items) {
    await page.goto(`${demo.url}/recipes/${slug}/batch?litres=20&gravity=1.45`);
    for (const format of ["A4", "Letter"] as const)
      expect([slug, format, pagesOf(await page.pdf({ format }))]).toEqual([slug, format, 1]);
  }
  await page.emulateMedia({ media: "print" });
  const points = await page
    .locator(".weigh-table td strong")
    .first()
    .evaluate((weight) => (Number.parseFloat(getComputedStyle(weight).fontSize) * 72) / 96);
  expect(points).toBeGreaterThanOrEqual(14);
  expect(complaints).toEqual([]);
  await context.close();
});

it.each(["light", "dark"] as const)(
  "asks how much to weigh on a phone, when it is %s",
  async (colorScheme) => {
    const context = await open(demo, { viewport: phone, colorScheme });
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes/slack-water/batch?amount=10&unit=lb`);
    const width = await page.evaluate(() => document.documentElement.scrollWidth);
    expect(width).toBe(phone.width);
    expect(await axe(page)).toEqual([]);
    await context.close();
  },
);
