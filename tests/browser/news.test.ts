import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, desk, open, phone, signIn, startDemo } from "./demo.ts";

/** Every 20 s is for people; the page asks as often as its element says. */
const often = async (page: Page) => {
  await page.route("**/recipes/slack-water", async (route) => {
    const answer = await route.fetch();
    const body = (await answer.text()).replace('data-every="20000"', 'data-every="200"');
    await route.fulfill({ response: answer, body });
  });
};

describe("what others do while a page is open", () => {
  let demo: Demo;
  beforeAll(async () => {
    demo = await startDemo();
  }, 120_000);
  afterAll(() => demo.close());

  it.each([desk, phone])(
    "appears beside a half-typed note, which stays, at $width px",
    async (viewport) => {
      const context = await open(demo, { viewport });
      const other = await open(demo);
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await signIn(page, demo.url, "rukmini");
      await often(page);
      await page.goto(`${demo.url}/recipes/slack-water`);
      const typed = page.getByLabel(/^Your note on revision/);
      await typed.fill("Half a thought about");
      const news = page.locator(".news");
      expect(await news.textContent()).toBe("");
      // The first answer says that nothing happened; the next ones are about what does.
      await page.waitForResponse((answer) => answer.url().includes("/news?since="));

      const jonahs = await other.newPage();
      await signIn(jonahs, demo.url, "jonah");
      await jonahs.goto(`${demo.url}/recipes/slack-water`);
      const words = `Mine came out cloudy at ${viewport.width}.`;
      await jonahs.getByLabel(/^Your note on revision/).fill(words);
      await jonahs.getByRole("button", { name: "Put the note" }).click();

      await news.getByText("Jonah Brackley wrote a note: show").waitFor();
      expect(await typed.inputValue()).toBe("Half a thought about");
      expect(await page.evaluate(() => document.activeElement?.id)).toBe("field-text");
      expect(await news.getAttribute("aria-live")).toBe("polite");
      // Nothing new is nothing sent.
      await page.waitForResponse(
        (answer) => answer.url().includes("/news?since=") && answer.status() === 304,
      );
      expect(await axe(page)).toEqual([]);

      await news.getByRole("link", { name: "show the note" }).click();
      await page.waitForURL(/\/recipes\/slack-water#note-/);
      await page.getByText(words).waitFor();
      expect(await page.getByLabel(/^Your note on revision/).inputValue()).toBe(
        "Half a thought about",
      );
      expect(complaints).toEqual([]);
      await context.close();
      await other.close();
    },
  );

  it.each([
    { script: true, viewport: desk },
    { script: true, viewport: phone },
    { script: false, viewport: desk },
    { script: false, viewport: phone },
  ])(
    "an objection is raised, answered and closed, script $script at $viewport.width px",
    async ({ script, viewport }) => {
      const context = await open(demo, { javaScriptEnabled: script, viewport });
      const page = await context.newPage();
      const complaints = complaintsOf(page);
      await signIn(page, demo.url, "jonah");
      await page.goto(`${demo.url}/recipes/ebb-green`);
      const words = `Copper in the sink, ${script ? "quick" : "plain"} ${viewport.width}.`;
      await page.getByLabel(/^Your note on revision/).fill(words);
      await page.getByLabel("On", { exact: true }).selectOption({ index: 1 });
      await page.getByLabel(/^This is an objection/).check();
      await page.getByRole("button", { name: "Put the note" }).click();
      const note = page.locator("li.note", { hasText: words });
      await note.getByText("Objection, open").waitFor();

      await note.getByText("Reply", { exact: true }).click();
      await note.getByLabel(/^Your reply/).fill("Measured it again.");
      await note.getByRole("button", { name: "Put the reply" }).click();
      await note.locator(".reply", { hasText: "Measured it again." }).waitFor();

      await note.getByText("Close the objection").click();
      await note.getByLabel(/^What answers the objection/).fill("It was the other sink.");
      await note.getByRole("button", { name: "Close it" }).click();
      await note.getByText("Objection, closed").waitFor();

      await note.getByText("Change the words").first().click();
      await note
        .getByLabel(/^The words from now on/)
        .first()
        .waitFor();
      expect(complaints).toEqual([]);
      await context.close();
    },
  );
});
