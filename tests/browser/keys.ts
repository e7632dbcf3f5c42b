import type { Locator, Page } from "playwright-core";

type Stop = { html: string; outlined: boolean; inView: boolean; after: boolean };

/**
 * Goes through a page by the Tab key from its top, and says what is wrong at its stops: focus that
 * cannot be seen, or that jumps back before what was read.
 */
export async function faultsOfTabbing(page: Page, most: number): Promise<string[]> {
  const faults: string[] = [];
  await page.evaluate(() => {
    (document.activeElement as HTMLElement | null)?.blur();
    getSelection()?.removeAllRanges();
    window.scrollTo(0, 0);
  });
  for (let n = 0; n < most; n += 1) {
    await page.keyboard.press("Tab");
    const stop = await page.evaluate(stopped);
    if (!stop || (n > 0 && stop.html.includes('class="skip"'))) return faults;
    if (!stop.outlined) faults.push(`no outline: ${stop.html}`);
    if (!stop.inView) faults.push(`out of sight: ${stop.html}`);
    if (!stop.after) faults.push(`out of order: ${stop.html}`);
  }
  return faults;
}

/** Where the focus is, beside where it was the time before; nothing at the page's end. */
function stopped(): Stop | null {
  const one = document.activeElement;
  const known = globalThis as unknown as { lastStop?: Element };
  if (!one || one === document.body) return null;
  const last = known.lastStop;
  known.lastStop = one;
  const { outlineStyle, outlineWidth } = getComputedStyle(one);
  const { top, bottom, left, right } = one.getBoundingClientRect();
  return {
    html: one.outerHTML.slice(0, 140),
    outlined: outlineStyle !== "none" && Number.parseFloat(outlineWidth) >= 2,
    inView: bottom > 0 && top < innerHeight && right > 0 && left < innerWidth,
    after:
      !last?.isConnected ||
      Boolean(last.compareDocumentPosition(one) & Node.DOCUMENT_POSITION_FOLLOWING),
  };
}

/** Presses Tab until the focus is there. */
export async function tabTo(page: Page, to: Locator, most = 120): Promise<void> {
  for (let n = 0; n < most; n += 1) {
    if (await to.evaluate((one) => one === document.activeElement)) return;
    await page.keyboard.press("Tab");
  }
  throw new Error(`the Tab key does not come to ${to}`);
}

type Node = {
  ignored: boolean;
  role?: { value: string };
  name?: { value: string };
  properties?: { name: string; value: { value?: unknown } }[];
};

/** What a screen reader is told: every node of the page as the browser hands it on. */
export async function told(page: Page) {
  const session = await page.context().newCDPSession(page);
  const { nodes } = (await session.send("Accessibility.getFullAXTree")) as { nodes: Node[] };
  await session.detach();
  const seen = nodes.filter(({ ignored }) => !ignored);
  return {
    roles: new Set(seen.map(({ role }) => role?.value)),
    /** The roles of what can be focused and has no name. */
    nameless: seen
      .filter(({ properties }) =>
        properties?.some(({ name, value }) => name === "focusable" && value.value === true),
      )
      .filter(({ role, name }) => !name?.value?.trim() && role?.value !== "RootWebArea")
      .filter(({ role }) => role?.value !== "main")
      .map(({ role }) => role?.value),
  };
}
