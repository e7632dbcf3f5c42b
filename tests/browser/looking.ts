import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import type { Page } from "playwright-core";
import { complaintsOf, phone } from "./demo.ts";
import type { Visit } from "./page-list.ts";

const axeSource = readFileSync(
  createRequire(import.meta.url).resolve("axe-core/axe.min.js"),
  "utf8",
);

/** Widths in CSS pixels: a phone, a desk at 200 %, a desk, and a large one. */
const widths = [phone.width, 640, 1280, 1600] as const;

/** Whether it led on to the page of something else, and what was seen there. */
export type Seen = { path: string; ledOn: boolean; title: string; faults: string[] };

/**
 * Looks at one page: in the light on a phone with everything that axe knows, then with the same page
 * at each width, and in the dark at a desk for what colours can do wrong.
 */
export async function look(page: Page, url: string, { at, sent, status = 200 }: Visit) {
  const complaints = complaintsOf(page);
  await page.setViewportSize(phone);
  await page.emulateMedia({ colorScheme: "light", reducedMotion: "reduce" });
  let answer = await page.goto(url + at);
  if (sent) answer = await send(page, sent);
  await unfold(page);
  await page.evaluate(axeSource);

  const faults = [...(await violations(page)), ...(await page.evaluate(outline))];
  for (const width of widths) {
    await page.setViewportSize({ width, height: 900 });
    const over = await page.evaluate(sideways);
    if (over) faults.push(`${width} px: ${over}`);
  }
  await page.setViewportSize({ width: 1280, height: 900 });
  await page.emulateMedia({ colorScheme: "dark" });
  faults.push(...(await violations(page, ["cat.color"])).map((fault) => `dark: ${fault}`));
  const came = answer?.status() ?? 0;
  if (came !== status) faults.push(`answered ${came} instead of ${status}`);
  const ledOn = new URL(page.url()).pathname !== new URL(url + at).pathname;
  return { path: at, ledOn, title: await page.title(), faults: [...faults, ...complaints] };
}

/** Sends a form as it stands, past what the browser would hold back. */
async function send(page: Page, form: string) {
  const [answer] = await Promise.all([
    page.waitForNavigation(),
    page
      .locator(form)
      .first()
      .evaluate((one) => HTMLFormElement.prototype.submit.call(one)),
  ]);
  return answer;
}

/** What is folded away has to hold as well. */
const unfold = (page: Page) =>
  page.evaluate(() => {
    for (const fold of document.querySelectorAll("details")) fold.open = true;
  });

type Result = {
  violations: { id: string; nodes: { html: string; any: { message: string }[] }[] }[];
};
type Axe = { run: (options: object) => Promise<Result> };

/** What axe finds wrong by WCAG 2.2 AA and its own good practice, or by some of its rules. */
const violations = (page: Page, tags?: readonly string[]): Promise<string[]> =>
  page.evaluate(async (only) => {
    const { axe } = globalThis as unknown as { axe: Axe };
    const options = { resultTypes: ["violations"], rules: { "target-size": { enabled: true } } };
    const found = await axe.run(
      only ? { ...options, runOnly: { type: "tag", values: only } } : options,
    );
    return found.violations.flatMap(({ id, nodes }) =>
      nodes
        .slice(0, 3)
        .map(({ html, any }) => `${id}: ${html.slice(0, 200)} ${any[0]?.message ?? ""}`),
    );
  }, tags);

/** One heading of the page, its landmarks, and a title that says more than the studio's name. */
function outline(): string[] {
  const faults: string[] = [];
  const count = (selector: string) => document.querySelectorAll(selector).length;
  const visible = (one: Element) => one.checkVisibility();
  const headings = [...document.querySelectorAll("h1")].filter(visible);
  if (headings.length !== 1) faults.push(`${headings.length} headings h1`);
  for (const landmark of ["body > header", "body > main", "body > footer"])
    if (count(landmark) !== 1) faults.push(`${count(landmark)} of ${landmark}`);
  if (!/^\S.* · \S/.test(document.title)) faults.push(`title: ${document.title}`);
  if (document.documentElement.lang !== "en") faults.push("no language");
  return faults;
}

/** By how much the page is wider than its window, and what sticks out. */
function sideways(): string {
  const wide = document.documentElement.scrollWidth - document.documentElement.clientWidth;
  if (wide <= 0) return "";
  const out = [...document.querySelectorAll("main *, header *, footer *")].filter(
    (one) => one.getBoundingClientRect().right > document.documentElement.clientWidth + 1,
  );
  return `${wide} px too wide: ${out[0]?.outerHTML.slice(0, 160)}`;
}
