import type { BrowserContext } from "playwright-core";
import { type Demo, open, signIn } from "./demo.ts";
import { type Reader, readers } from "./page-list.ts";

/** One for each reader, with its session. */
export type Contexts = Readonly<Record<Reader, BrowserContext>>;

export async function openContexts(demo: Demo): Promise<Contexts> {
  const opened = Object.entries(readers).map(async ([who, name]) => {
    const context = await open(demo, { serviceWorkers: "block" });
    if (name) {
      const page = await context.newPage();
      await signIn(page, demo.url, name);
      await page.close();
    }
    return [who, context] as const;
  });
  return Object.fromEntries(await Promise.all(opened)) as Contexts;
}
