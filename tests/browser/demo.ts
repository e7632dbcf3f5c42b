import { type ChildProcess, spawn } from "node:child_process";
import { once } from "node:events";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { type Browser, type BrowserContext, chromium, type Page } from "playwright-core";
import { chromiumPath } from "../engines/find.ts";

export const password = "a-demo-password";

export type Demo = { url: string; browser: Browser; close: () => Promise<void> };

/** The demo as a person starts it, on a port of its own and in a fresh folder, and a browser. */
export async function startDemo(): Promise<Demo> {
  const folder = await mkdtemp(join(tmpdir(), "bucket-demo-"));
  const process_ = spawn(process.execPath, ["--import", "tsx", "src/demo.ts"], {
    cwd: join(import.meta.dirname, "../.."),
    env: { ...process.env, PORT: "0", DATA_DIR: folder, DEMO_PASSWORD: password, DATABASE_URL: "" },
    stdio: ["ignore", "pipe", "inherit"],
  });
  const url = await addressFrom(process_);
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
      const gone = once(process_, "exit");
      process_.kill("SIGTERM");
      await gone;
      await rm(folder, { recursive: true, force: true });
    },
  };
}

function addressFrom(demo: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    let said = "";
    demo.stdout?.on("data", (chunk) => {
      said += chunk;
      const url = /http:\/\/localhost:\d+/.exec(said)?.[0];
      if (url) resolve(url);
    });
    demo.once("exit", (code) => reject(new Error(`the demo ended with ${code}: ${said}`)));
  });
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
