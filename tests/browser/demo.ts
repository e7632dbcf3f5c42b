import { cp, mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { inject } from "vitest";
import { chromiumPath } from "../engines/find.ts";
import { password, runDemo } from "./running.ts";

export type Demo = { url: string; browser: Browser; close: () => Promise<void> };

/** The demo as a person finds it who starts it a second time, and a browser. */
export async function startDemo(): Promise<Demo> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-demo-"));
  await cp(inject("demo"), folder, { recursive: true });
  const { url, end } = await runDemo(folder);
  const browser = await chromium.launch({
    executablePath: chromiumPath,
    args: [
      "--no-sandbox",
      "--disable-gpu",
      "--disable-quic",
      "--no-first-run",
      "--disable-background-networking",
      "--disable-component-update",
      "--disable-sync",
      "--disable-dev-shm-usage",
    ],
  });
  return {
    url,
    browser,
    async close() {
      await browser.close();
      await end();
      await rm(folder, { recursive: true, force: true });
    },
  };
}

/** What the browser complained about: errors of scripts, and what the policy refused. */
export function complaintsOf(page: Page): string[] {
  const complaints: string[] = [];
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("console", (message) => {
    if (message.type() === "error" && !/status of 4\d\d/.test(message.text()))
      complaints.push(message.text());
  });
  return complaints;
}

export async function signIn(page: Page, url: string, name: string): Promise<void> {
  await page.goto(`${url}/session/new`);
  await page.getByLabel("E-mail").fill(`${name}@saltmarsh.example`);
  await page.getByLabel("Password").fill(password);
  await page.locator("main").getByRole("button", { name: "Sign in" }).click();
  await page.waitForURL((address) => !address.pathname.startsWith("/session"));
}

type Violation = { id: string; nodes: string[] };

/** What axe finds wrong on the page, by WCAG 2.2 AA and its own good practice. */
export async function axe(page: Page): Promise<Violation[]> {
  const source = await readFile(
    createRequire(import.meta.url).resolve("axe-core/axe.min.js"),
    "utf8",
  );
  await page.evaluate(source);
  return page.evaluate(async () => {
    const { axe } = globalThis as unknown as {
      axe: { run: () => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }> };
    };
    const { violations } = await axe.run();
    return violations.map(({ id, nodes }) => ({
      id,
      nodes: nodes.map(({ html }) => html.slice(0, 200)),
    }));
  });
}

export const phone = { width: 390, height: 844 };
export const desk = { width: 1280, height: 900 };

export const open = (
  demo: Demo,
  options: Parameters<Browser["newContext"]>[0] = {},
): Promise<BrowserContext> => demo.browser.newContext({ viewport: desk, ...options });
