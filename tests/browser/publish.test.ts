import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { complaintsOf, type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

describe("publishing in a browser", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it.each([
    { script: true, viewport: desk },
    { script: true, viewport: phone },
    { script: false, viewport: desk },
    { script: false, viewport: phone },
  ])("works with script $script at $viewport.width px", async ({ script, viewport }) => {
    const context = await open(demo, { javaScriptEnabled: script, viewport });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    const name = `Spring Tide ${script ? "quick" : "plain"} ${viewport.width}`;
    await signIn(page, demo.url, "rukmini");
    await page.goto(`${demo.url}/recipes/new`);

    await page.getByLabel("Name of the glaze").fill(name);
    await page.getByText("Paste lines as text").click();
    await page
      .getByLabel("Lines of a recipe")
      .fill("Potash feldspar 45\nWhiting 20\nQuarz 25\nKaolin 10\n+ Red iron oxide 1.5");
    await page.getByRole("button", { name: "Read into the rows" }).click();

    // A slip of the pen is asked about, never guessed.
    await page.getByRole("button", { name: "Quartz", exact: true }).click();
    await page.locator("#preview .chemistry").waitFor();
    expect(await page.locator("#preview").textContent()).toContain("Unity formula");

    await page.getByLabel("Surface").fill("gloss");
    await page.getByRole("button", { name: "Publish", exact: true }).click();
    await page.waitForURL(/\/recipes\/spring-tide/);
    expect(await page.getByRole("heading", { level: 1 }).textContent()).toBe(name);
    expect(await page.locator("#use").textContent()).toContain("decorative only");
    expect(await page.locator("table.lines").first().textContent()).toContain("Red iron oxide");
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("shows the chemistry as one types, without sending the form", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    await signIn(page, demo.url, "rukmini");
    await page.goto(`${demo.url}/recipes/new`);
    const rows = page.locator(".sheet-row");
    await rows
      .nth(0)
      .getByLabel(/^Material/)
      .fill("Potash feldspar");
    await rows
      .nth(0)
      .getByLabel(/^Amount/)
      .fill("60");
    await page.locator("#preview .chemistry").waitFor();
    await rows
      .nth(1)
      .getByLabel(/^Material/)
      .fill("Whiting");
    await rows
      .nth(1)
      .getByLabel(/^Amount/)
      .fill("20");
    await page.locator("#preview", { hasText: "Whiting 20" }).waitFor();
    expect(
      await rows
        .nth(1)
        .getByLabel(/^Amount/)
        .inputValue(),
    ).toBe("20");
    await context.close();
  });

  it("gives back what was typed after leaving the page", async () => {
    const context = await open(demo);
    const page = await context.newPage();
    await signIn(page, demo.url, "jonah");
    await page.goto(`${demo.url}/recipes/new`);
    await page.getByLabel("Name of the glaze").fill("Half Typed");
    await page.goto(`${demo.url}/materials`);
    await page.goto(`${demo.url}/recipes/new`);
    expect(await page.getByLabel("Name of the glaze").inputValue()).toBe("Half Typed");
    await context.close();
  });
});
