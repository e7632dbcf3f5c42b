import { mkdir } from "node:fs/promises";
import { join } from "node:path";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

const folder = join(import.meta.dirname, "../../docs/pictures");

type Shot = {
  name: string;
  who?: string;
  path: string;
  /** What has to be there before it is taken. */
  shows: string;
  on?: typeof desk;
  /** What is done on the page first. */
  first?: (page: Page) => Promise<void>;
};

const table = [
  "recipe;part;material;amount;cone",
  "Skerry Grey;base;Potash feldspar;40;6",
  ";base;Whiting;20;",
  ";base;Silica;25;",
  ";base;Kaolin;15;",
].join("\n");

/** What the docs show, taken of the demo; PICTURE=1 takes them anew. */
const shots: readonly Shot[] = [
  { name: "library", path: "/recipes", shows: "main table.strips img" },
  { name: "newcomer", path: "/start?making=mug-or-bowl", shows: "main h1", on: phone },
  { name: "recipe", path: "/recipes/slack-water", shows: "main h1" },
  {
    name: "import",
    who: "ines",
    path: "/imports/new",
    shows: "main h1",
    first: async (page) => {
      const file = { name: "loft.csv", mimeType: "text/csv", buffer: Buffer.from(table) };
      await page.locator("#field-file").setInputFiles(file);
      await page.getByRole("button", { name: "See what it would bring" }).click();
      await page.waitForURL((address) => address.pathname === "/import");
    },
  },
  { name: "settings", who: "ines", path: "/studio", shows: "main h1" },
  {
    name: "batch",
    who: "rukmini",
    path: "/recipes/slack-water/batch?amount=2000&unit=g",
    shows: "main table",
    on: phone,
    first: (page) =>
      page
        .locator("main table")
        .first()
        .evaluate((table) => table.scrollIntoView()),
  },
];

describe("what the docs show", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
    await mkdir(folder, { recursive: true });
  }, 120_000);
  afterAll(() => demo.close());

  it.each(shots)("$name is there to be taken", async ({ name, who, path, shows, on, first }) => {
    const context = await open(demo, { viewport: on ?? desk, colorScheme: "light" });
    const page = await context.newPage();
    if (who) await signIn(page, demo.url, who);
    await page.goto(demo.url + path);
    await page.locator(shows).first().waitFor();
    await first?.(page);
    // What is seen has to have come; what is further down is loaded when somebody gets there.
    await expect
      .poll(() =>
        page
          .locator("main img")
          .evaluateAll((all) =>
            (all as HTMLImageElement[])
              .filter((one) => one.getBoundingClientRect().top < window.innerHeight)
              .every((one) => one.complete && one.naturalWidth > 0),
          ),
      )
      .toBe(true);
    const taken = process.env.PICTURE ? { path: join(folder, `${name}.png`) } : {};
    expect((await page.screenshot(taken)).byteLength).toBeGreaterThan(10_000);
    await context.close();
  });
});
