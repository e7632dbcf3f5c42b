import type { BrowserContext, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";
import { faultsOfTabbing, tabTo, told } from "./keys.ts";
import { line, type Manager, managerOf } from "./mixing.ts";

const focusIn = (page: Page, selector: string) =>
  expect
    .poll(() => page.evaluate((at) => Boolean(document.activeElement?.closest(at)), selector), {
      timeout: 20_000,
    })
    .toBe(true);

describe("by keyboard alone", () => {
  let demo: Demo;
  let manager: Manager;
  let context: BrowserContext;
  let mix: string;
  beforeAll(async () => {
    demo = await startDemo();
    manager = await managerOf(demo);
    mix = await manager.openMix();
    context = await open(demo, { serviceWorkers: "block" });
    const page = await context.newPage();
    await signIn(page, demo.url, "rukmini");
    await page.close();
  }, 120_000);
  afterAll(() => demo.close());

  const pages = (): readonly string[] => [
    "/recipes",
    "/recipes/slack-water",
    "/recipes/slack-water/batch",
    "/recipes/new",
    mix,
  ];

  it("every stop is seen, in the order of reading, and has a name, on a desk and a phone", async () => {
    const page = await context.newPage();
    for (const viewport of [desk, phone]) {
      await page.setViewportSize(viewport);
      for (const path of pages()) {
        await page.goto(demo.url + path);
        expect({ path, faults: await faultsOfTabbing(page, 60) }).toEqual({ path, faults: [] });
        const { nameless, roles } = await told(page);
        expect({ path, nameless }).toEqual({ path, nameless: [] });
        for (const role of ["banner", "navigation", "main", "contentinfo", "heading"])
          expect(roles).toContain(role);
      }
    }
    await page.close();
  });

  it.each(["/recipes", "/recipes/slack-water", "/compare?left=slack-water@2&right=ebb-green"])(
    "a table stays one on a phone: %s",
    async (path) => {
      const page = await context.newPage();
      await page.setViewportSize(phone);
      await page.goto(demo.url + path);
      const { roles } = await told(page);
      for (const role of ["table", "row", "rowheader", "cell"]) expect(roles).toContain(role);
      await page.close();
    },
  );

  it("leads from the skip link into the page", async () => {
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes`);
    await page.keyboard.press("Tab");
    const skip = page.getByRole("link", { name: "Skip to the page" });
    expect(await skip.evaluate((one) => one === document.activeElement)).toBe(true);
    expect((await skip.boundingBox())?.y).toBeGreaterThanOrEqual(0);
    await page.keyboard.press("Enter");
    await page.keyboard.press("Tab");
    await focusIn(page, "main");
    await page.close();
  });

  it("publishes, with the focus at what is refused and at what is new", async () => {
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes/new`);
    await tabTo(page, page.getByLabel("Name of the glaze"));
    await page.keyboard.type("Keyboard Green");
    await tabTo(page, page.getByText("Paste lines as text"));
    await page.keyboard.press("Enter");
    await tabTo(page, page.getByLabel("Lines of a recipe"));
    await page.keyboard.type("Potash feldspar 45");
    const read = page.getByRole("button", { name: "Read into the rows" });
    await tabTo(page, read);
    await page.keyboard.press("Enter");
    await page.locator(".sheet-row input[value='Potash feldspar']").waitFor();
    await focusIn(page, "main");
    const publish = page.getByRole("button", { name: "Publish", exact: true });
    await page
      .getByLabel(/^Amount/)
      .first()
      .evaluate((one) => {
        (one as HTMLInputElement).form?.setAttribute("novalidate", "");
      });
    await page
      .getByLabel(/^Amount/)
      .first()
      .focus();
    await page.keyboard.press("Control+A");
    await page.keyboard.type("-4");
    await tabTo(page, publish);
    await page.keyboard.press("Enter");
    await focusIn(page, "#faults");
    await page.keyboard.press("Tab");
    await page.keyboard.press("Enter");
    await focusIn(page, ".sheet-row input, .field input, .field select");
    await page
      .getByLabel(/^Amount/)
      .first()
      .focus();
    await page.keyboard.press("Control+A");
    await page.keyboard.type("45");
    await tabTo(page, publish);
    await page.keyboard.press("Enter");
    await page.waitForURL(/\/recipes\/keyboard-green/);
    await focusIn(page, "main");
    await page.close();
  });

  it("puts a note, with the focus at what is refused and then at the note", async () => {
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes/slack-water`);
    const words = page.getByLabel(/^Your note on revision/);
    await tabTo(page, words, 300);
    const put = page.getByRole("button", { name: "Put the note" });
    await words.evaluate((one) => one.removeAttribute("required"));
    await tabTo(page, put);
    await page.keyboard.press("Enter");
    await focusIn(page, "#faults");
    await tabTo(page, words, 300);
    await page.keyboard.type("Sieved twice, and it lies evenly.");
    await tabTo(page, put);
    await page.keyboard.press("Enter");
    await page.locator(".note-text", { hasText: "Sieved twice" }).last().waitFor();
    await focusIn(page, "[id^=note-]");
    await page.close();
  });

  it("ticks a line of a mix, and says so by itself", async () => {
    const page = await context.newPage();
    await page.goto(demo.url + mix);
    const lot = line(page, 1).getByLabel(/^Out of/);
    await tabTo(page, lot);
    await page.keyboard.press("ArrowDown");
    await tabTo(page, line(page, 1).getByLabel(/^Weighed/));
    await page.keyboard.press("Enter");
    await line(page, 1).getByText("g by Rukmini Vale").waitFor();
    await focusIn(page, "#line-1");
    expect(await page.locator("#mix-status").getAttribute("aria-live")).toBe("polite");
    await page.close();
  });

  it("reckons a batch with Enter", async () => {
    const page = await context.newPage();
    await page.goto(`${demo.url}/recipes/slack-water/batch`);
    await tabTo(page, page.locator("main form input[name=amount]"));
    await page.keyboard.press("Control+A");
    await page.keyboard.type("730");
    await page.keyboard.press("Enter");
    await page.waitForURL(/amount=730/);
    await page.close();
  });
});
