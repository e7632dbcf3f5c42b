import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

const family = "/families/the-terns/handout?region=United%20States&weight=lb&tub=10&temperature=F";

describe("a handout", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it.each([
    { viewport: phone, colorScheme: "light" as const },
    { viewport: phone, colorScheme: "dark" as const },
    { viewport: desk, colorScheme: "light" as const },
    { viewport: desk, colorScheme: "dark" as const },
  ])("is free of faults at $viewport.width px in the $colorScheme", async (options) => {
    const context = await open(demo, { ...options, javaScriptEnabled: true });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await page.goto(demo.url + family);
    expect(await axe(page)).toEqual([]);
    await page.goto(`${demo.url}/recipes/black-tern/handout`);
    await page.getByLabel("In place of").first().selectOption("potash-feldspar");
    await page.getByLabel("Its analysis").first().fill("SiO2 66.3\nsand");
    await page.getByRole("button", { name: "Work it out with mine" }).click();
    await page.getByRole("link", { name: /Row 2/ }).waitFor();
    expect(await page.getByLabel("Its analysis").first().inputValue()).toBe("SiO2 66.3\nsand");
    expect(await axe(page)).toEqual([]);
    const spar = "SiO2 66.3\nAl2O3 19.1\nK2O 10.1\nNa2O 3.2\nCaO 0.5";
    await page.getByLabel("Its analysis").first().fill(spar);
    await page.getByRole("button", { name: "Work it out with mine" }).click();
    await page.locator("#restated").waitFor();
    expect(await axe(page)).toEqual([]);
    const wide = await page.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect(wide).toBeLessThanOrEqual(0);
    expect(complaints).toEqual([]);
    await context.close();
  });

  it("is handed out by a link that somebody without an account reads and prints", async () => {
    const own = await open(demo);
    const page = await own.newPage();
    await signIn(page, demo.url, "ines");
    await page.goto(demo.url + family);
    await page.getByRole("button", { name: "Make a link" }).click();
    const link = await page.getByLabel("Copy it now").inputValue();
    const outside = await open(demo, { viewport: { width: 690, height: 1000 } });
    const reading = await outside.newPage();
    const complaints = complaintsOf(reading);
    await reading.goto(link);
    expect(await axe(reading)).toEqual([]);
    expect(await reading.locator("nav").count()).toBe(0);
    expect(await reading.locator(".handout-tiles img").count()).toBeGreaterThan(2);
    await reading.emulateMedia({ media: "print" });
    const sideways = await reading.evaluate(
      () => document.documentElement.scrollWidth - window.innerWidth,
    );
    expect(sideways).toBeLessThanOrEqual(0);
    for (const mark of await reading.locator(".handout-mark").all())
      expect(await mark.isVisible()).toBe(true);
    expect(await reading.locator("form").first().isVisible()).toBe(false);
    for (const format of ["A4", "Letter"] as const) {
      const pdf = (await reading.pdf({ format })).toString("latin1");
      expect(pdf.match(/\/Type\s*\/Page\b/g)?.length).toBeGreaterThanOrEqual(5);
    }
    expect(complaints).toEqual([]);

    await page.goto(`${demo.url}/families/the-terns`);
    await page
      .getByRole("button", { name: /End this handout/ })
      .first()
      .click();
    await page.waitForURL(/#handouts$/);
    expect((await reading.goto(link))?.status()).toBe(404);
    await reading.getByText("This link hands nothing out").waitFor();
    expect(await axe(reading)).toEqual([]);
    await own.close();
    await outside.close();
  });
});
