import { Decimal } from "decimal.js";
import type { Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { axe, complaintsOf, type Demo, open, phone, signIn, startDemo } from "./demo.ts";
import {
  chooseBag,
  isKept,
  isQuiet,
  line,
  loadedBytes,
  type Manager,
  type Mix,
  managerOf,
  smallerThan,
  status,
  tablet,
  tick,
} from "./mixing.ts";

/** With gloves, or a scoop in the other hand: CSS pixels, common practice, no source. */
const touch = 48;

/** What a first visit may load, in bytes as they come compressed. */
const mostBytes = 80 * 1024;

const online = (page: Page) => page.evaluate(() => dispatchEvent(new Event("online")));

const sendTwice = (form: Element) => {
  for (const _ of [1, 2]) (form as HTMLFormElement).requestSubmit();
};

const ownFaults = (complaints: string[]) =>
  complaints.filter((each) => !/ERR_INTERNET_DISCONNECTED|ERR_FAILED/.test(each));

describe("a mix where the network comes and goes", () => {
  let demo: Demo;
  let manager: Manager;
  beforeAll(async () => {
    demo = await startDemo();
    manager = await managerOf(demo);
  }, 120_000);
  afterAll(() => demo.close());

  it("is weighed, loaded anew and put right without one, and sent once with one", async () => {
    const context = await open(demo, { viewport: tablet });
    const page = await context.newPage();
    const complaints = complaintsOf(page);
    await signIn(page, demo.url, "ines");
    const mix = await manager.openMix();
    const before = await manager.ask<Mix>(mix);
    await page.goto(demo.url + mix);
    await isKept(page);
    const first = await tick(page, 1);
    await line(page, 1).getByText(`${first} g by Ines Okafor`).waitFor();

    await context.setOffline(true);
    const second = await tick(page, 2);
    await line(page, 2).getByText("put in: waiting for the network").waitFor();
    await chooseBag(page, 3);
    await line(page, 3).locator(".mix-form").evaluate(sendTwice);
    await status(page)
      .getByText(/^As of .* without a network. 2 entries wait/)
      .waitFor();

    await page.reload();
    await status(page)
      .getByText(/^As of .* without a network. 2 entries wait/)
      .waitFor();
    await line(page, 1).getByText(`${first} g by Ines Okafor`).waitFor();
    await line(page, 3).getByText("put in: waiting for the network").waitFor();
    const half = new Decimal(first).plus(second).toNumber();
    const fourth = await tick(page, 4, "12.5");
    await line(page, 3).getByRole("button", { name: "Undo" }).click();
    await line(page, 3).getByText("waiting").waitFor({ state: "detached" });
    await page
      .getByText(`In, with what waits: 3 of ${before.lines.length} lines, ${half + 12.5} g of`)
      .waitFor();
    await page.getByText("The mix ends when nothing of yours waits").waitFor();
    expect(await page.getByRole("button", { name: "It is mixed" }).isDisabled()).toBe(true);
    expect(await manager.inOf(mix)).toEqual({ 1: [`Ines Okafor ${first}`] });

    await context.setOffline(false);
    await line(page, 4).getByText("12.5 g by Ines Okafor").waitFor();
    await isQuiet(page);
    expect(await manager.inOf(mix)).toEqual({
      1: [`Ines Okafor ${first}`],
      2: [`Ines Okafor ${second}`],
      4: [`Ines Okafor ${fourth}`],
    });
    const now = await manager.ask<Mix>(mix);
    expect(now.lines.map(({ put }) => put.ticks.length).slice(0, 4)).toEqual([1, 1, 0, 1]);
    const left = ({ lines }: Mix, at: number) => lines[at]?.lots[0]?.leftGrams ?? "none";
    expect(left(now, 1)).toBe(new Decimal(left(before, 1)).minus(second).toFixed());

    for (const { n, put } of now.lines.filter(({ put }) => put.grams === null)) {
      const grams = await tick(page, n);
      expect(put.ticks).toEqual([]);
      await line(page, n).getByText(`${grams} g by Ines Okafor`).waitFor();
    }
    await isQuiet(page);
    await page.getByLabel("Water that went in").fill("1500");
    await page.getByRole("button", { name: "It is mixed" }).click();
    await page.getByText("Finished by Ines Okafor").waitFor();
    expect(ownFaults(complaints)).toEqual([]);
    await context.close();
  });

  it("keeps apart what somebody else put in meanwhile, until it is added or dropped", async () => {
    const context = await open(demo, { viewport: tablet });
    const page = await context.newPage();
    await signIn(page, demo.url, "rukmini");
    const mix = await manager.openMix();
    await page.goto(demo.url + mix);
    await isKept(page);
    await context.setOffline(true);
    const weighed = [await tick(page, 1), await tick(page, 2), await tick(page, 3)];

    const other = await manager.context.newPage();
    await other.goto(demo.url + mix);
    await tick(other, 1);
    await tick(other, 2);
    await line(other, 2).getByText("g by Ines Okafor").waitFor();
    await context.setOffline(false);

    const words = `not taken: Ines Okafor put ${weighed[0]} g in.`;
    await line(page, 1).getByText(words).waitFor();
    await line(page, 2).getByText("not taken: Ines Okafor put").waitFor();
    await line(page, 3).getByText("g by Rukmini Vale").waitFor();
    await line(other, 3).getByText("g by Rukmini Vale").waitFor();
    await line(page, 1).getByText("g by Ines Okafor").waitFor();
    await status(page).getByRole("link", { name: "see line 1" }).waitFor();
    expect(await axe(page)).toEqual([]);
    await line(page, 1).getByRole("button", { name: "It came on top: send it" }).click();
    await line(page, 1).getByText("g by Rukmini Vale").waitFor();
    await line(page, 2).getByRole("button", { name: "Drop it" }).click();
    await isQuiet(page);
    expect(await manager.inOf(mix)).toEqual({
      1: [`Ines Okafor ${weighed[0]}`, `Rukmini Vale ${weighed[0]}`],
      2: [`Ines Okafor ${weighed[1]}`],
      3: [`Rukmini Vale ${weighed[2]}`],
    });

    await page.goto(`${demo.url}/account`);
    expect(await page.evaluate(() => caches.has("mix-pages"))).toBe(true);
    await page.getByRole("button", { name: "Sign out" }).click();
    await page.waitForURL("**/session/new");
    expect(await page.evaluate(() => caches.has("mix-pages"))).toBe(false);
    await context.close();
    await other.close();
  });

  it("counts a tick once whose answer was lost, and sends nobody's in another's name or into a mix that ended", async () => {
    const context = await open(demo, { serviceWorkers: "block" });
    const page = await context.newPage();
    await signIn(page, demo.url, "rukmini");
    const mix = await manager.openMix();
    await page.goto(demo.url + mix);
    let sent = 0;
    await page.route("**/lines/1", async (route) => {
      sent += 1;
      if (sent > 1) return route.continue();
      await route.fetch();
      return route.abort();
    });
    const first = await tick(page, 1);
    await status(page).getByText("1 entry waits").waitFor();
    expect(await manager.inOf(mix)).toEqual({ 1: [`Rukmini Vale ${first}`] });
    await online(page);
    await line(page, 1).getByText("g by Rukmini Vale").waitFor();
    await isQuiet(page);
    expect(sent).toBe(2);
    expect(await manager.inOf(mix)).toEqual({ 1: [`Rukmini Vale ${first}`] });

    await context.clearCookies();
    const second = await tick(page, 2);
    await status(page).getByText("You are signed out. 1 entry waits").waitFor();
    await status(page).getByRole("link", { name: "Sign in" }).waitFor();
    const next = await context.newPage();
    await signIn(next, demo.url, "marta");
    await online(page);
    await status(page).getByText("1 entry waits here until Rukmini Vale signs in.").waitFor();
    expect(await manager.inOf(mix)).toEqual({ 1: [`Rukmini Vale ${first}`] });
    await signIn(next, demo.url, "rukmini");
    await next.goto(demo.url + mix);
    await line(next, 2).getByText("g by Rukmini Vale").waitFor();
    expect(await manager.inOf(mix)).toEqual({
      1: [`Rukmini Vale ${first}`],
      2: [`Rukmini Vale ${second}`],
    });

    await context.setOffline(true);
    await tick(next, 3);
    await manager.ask(`${mix}/giving-up`, { why: "The bucket fell over." });
    await context.setOffline(false);
    await line(next, 3).getByText("not taken: This mix is given up").waitFor();
    await line(next, 3).getByRole("button", { name: "Drop it" }).click();
    await isQuiet(next);
    await line(next, 3).getByText("not taken").waitFor({ state: "detached" });
    await context.close();
  });

  it("is light, and free of faults with entries that wait, on a phone and a tablet", async () => {
    const context = await open(demo, { viewport: phone });
    const page = await context.newPage();
    await signIn(page, demo.url, "rukmini");
    const mix = await manager.openMix();
    await page.goto(demo.url + mix);
    await isKept(page);
    expect(await loadedBytes(page)).toBeLessThan(mostBytes);
    await context.setOffline(true);
    await tick(page, 1);
    await tick(page, 2);
    await status(page).getByText("2 entries wait").waitFor();
    for (const viewport of [phone, tablet]) {
      for (const colorScheme of ["light", "dark"] as const) {
        await page.setViewportSize(viewport);
        await page.emulateMedia({ colorScheme });
        expect(await axe(page)).toEqual([]);
        const root = page.locator("html");
        expect(await root.evaluate((one) => one.scrollWidth - one.clientWidth)).toBe(0);
        const pressed = page.locator(
          "main :is(button, select, summary, .mix-status a, input:not([type=hidden])):visible",
        );
        expect(await smallerThan(touch, pressed)).toEqual([]);
      }
    }
    await context.close();
  });
});
