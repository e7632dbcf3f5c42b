import type { BrowserContext, Locator, Page } from "playwright-core";
import { expect } from "vitest";
import type { mixJson } from "../../src/routes/mix-json.ts";
import { type Ask, asking } from "./asking.ts";
import { type Demo, open, signIn } from "./demo.ts";

export type Mix = ReturnType<typeof mixJson>;

export const tablet = { width: 820, height: 1180 };

/** The manager beside the tablet, with a network all the time. */
export type Manager = {
  context: BrowserContext;
  ask: Ask;
  /** Opens a mix of 2 kg in a bucket of its own; its address. */
  openMix: () => Promise<string>;
  /** What stands of each line in the studio: `{1: ["Marta Quill 800"]}`. */
  inOf: (mix: string) => Promise<Record<number, string[]>>;
};

export async function managerOf(demo: Demo): Promise<Manager> {
  const context = await open(demo);
  await signIn(await context.newPage(), demo.url, "ines");

  const ask = asking(context, demo.url);

  return {
    context,
    ask,
    async openMix() {
      type Buckets = { items: { recipe: { slug: string }; revision: number }[] };
      const { items } = await ask<Buckets>("/buckets");
      const revision = items.find(({ recipe }) => recipe.slug === "slack-water")?.revision;
      const about = { recipe: "slack-water", revision, name: "The tablet's", litres: "10" };
      const { id } = await ask<{ id: string }>("/buckets", about);
      const amount = { grams: "2000", scaleGrams: "1" };
      return `/mixes/${(await ask<Mix>(`/buckets/${id}/mixes`, amount)).id}`;
    },
    async inOf(mix) {
      const { lines } = await ask<Mix>(mix);
      const standing = lines.map(({ n, put }) => {
        const ticks = put.ticks.filter((tick) => !("undone" in tick));
        return [n, ticks.map(({ by, grams }) => `${by.name} ${grams}`)] as const;
      });
      return Object.fromEntries(standing.filter(([, ticks]) => ticks.length > 0));
    },
  };
}

export const line = (page: Page, n: number): Locator => page.locator(`#line-${n}`);
export const status = (page: Page): Locator => page.locator("#mix-status");

/** Takes the first bag there is. */
export async function chooseBag(page: Page, n: number): Promise<void> {
  const lot = line(page, n).getByLabel(/^Out of/);
  const first = lot.locator("option:not([value='']):not([disabled])").first();
  await lot.selectOption((await first.getAttribute("value")) ?? "");
}

/** Says that a line is in. @returns the grams. */
export async function tick(page: Page, n: number, typed?: string): Promise<string> {
  await chooseBag(page, n);
  const weighed = line(page, n).getByLabel(/^Weighed/);
  if (typed) await weighed.fill(typed);
  const grams = await weighed.inputValue();
  await line(page, n).getByRole("button", { name: /is in/ }).click();
  return grams;
}

/** Until the page can be opened without a network. */
export const isKept = (page: Page) =>
  expect
    .poll(
      () =>
        page.evaluate(
          async () =>
            navigator.serviceWorker.controller !== null &&
            (await caches.match(location.pathname, { ignoreVary: true })) !== undefined,
        ),
      { timeout: 30_000 },
    )
    .toBe(true);

/** Until nothing waits and the studio is heard. */
export const isQuiet = (page: Page) =>
  page.locator("#mix-status:empty").waitFor({ state: "attached" });

/** Of a page that was loaded just now, in bytes as they came, without what its script asked for. */
export const loadedBytes = (page: Page): Promise<number> =>
  page.evaluate(() =>
    (performance.getEntries() as PerformanceResourceTiming[])
      .filter(({ initiatorType: by }) => by !== undefined && by !== "fetch")
      .reduce((sum, { encodedBodySize }) => sum + encodedBodySize, 0),
  );

/** What is pressed on the page and is narrower or lower than so many CSS pixels. */
export const smallerThan = (least: number, pressed: Locator): Promise<string[]> =>
  pressed.evaluateAll(
    (all, most) =>
      all
        .filter((one) => {
          const { width, height } = one.getBoundingClientRect();
          return width < most - 0.5 || height < most - 0.5;
        })
        .map((one) => one.outerHTML.slice(0, 120)),
    least,
  );
