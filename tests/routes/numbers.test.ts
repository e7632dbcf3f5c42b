import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Account } from "../../src/chem/account.ts";
import { publish, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

describe("asking a number", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  it("tells where every number that the page links comes from", async () => {
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    const links = [...page.matchAll(/href="([^"]*\/numbers\/[^"]+)"/g)].map(
      ([, href]) => href ?? "",
    );
    expect(links.length).toBeGreaterThan(15);
    for (const link of links) {
      const answer = await studio.send("visitor", link);
      expect({ link, status: answer.status }).toEqual({ link, status: 200 });
    }
  });

  it("answers in JSON too", async () => {
    const account = await studio.json<Account & { lines: { material: string; amount: string }[] }>(
      "visitor",
      `/recipes/${slug}/revisions/1/numbers/unity.CaO`,
    );
    const [lime, fluxes] = account.brings;
    expect(lime).toMatchObject({ of: "CaO", side: "counted", measure: "moles" });
    // 20 parts of CaCO3 by the weights of IUPAC 2021: 20/100.086 mol.
    expect(lime?.lines).toEqual([{ line: 1, amount: expect.closeTo(20 / 100.086, 4), share: 1 }]);
    expect(fluxes?.lines.map(({ line }) => line)).toEqual([0, 1]);
    expect(account.lines[1]).toMatchObject({ material: "whiting", amount: "20" });
    const root = Math.hypot(...account.doubts.map(({ plusMinus }) => plusMinus));
    expect(root).toBeCloseTo(account.quantity.plusMinus, 9);
  });

  it("says on its page what to do about the largest part of the ±, and of which powders it is", async () => {
    const path = `/recipes/${slug}/revisions/1/numbers/unity.SiO2`;
    const page = await (await studio.send("visitor", path)).text();
    const words = page.replace(/<[^>]+>/g, " ").replace(/\s+/g, " ");
    expect(words).toMatch(
      /of this ±[^.]* is the \w+ of (Potash feldspar|Whiting|Quartz|Kaolin), whose ± was assumed: a measured analysis would help most\./,
    );
    expect(words).toContain("It is the ± of the powders named here");
    expect(words).toContain("Iron is counted as Fe2O3.");
    expect(page).toContain('href="/materials/potash-feldspar"');
    expect(page).toContain(`href="/recipes/${slug}/revisions/1#chemistry"`);
  });

  it("is read out with its name wherever it is linked", async () => {
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    const link = /<a class="asked" href="[^"]*unity\.SiO2">(.*?)<\/a>/.exec(page)?.[1] ?? "";
    expect(link.replace(/<[^>]+>/g, "")).toMatch(
      /^SiO2 in the unity formula, \d\.\d{3} ± \d\.\d{3}: where it comes from$/,
    );
  });

  it("keeps to the conventions that the address chooses", async () => {
    const path = `/recipes/${slug}/revisions/1/numbers/unity.FeO`;
    expect((await studio.send("visitor", path)).status).toBe(404);
    const page = await (await studio.send("visitor", `${path}?iron=FeO`)).text();
    expect(page).toContain("Iron is counted as FeO: each Fe2O3 as two.");
    expect(page).toContain(`/revisions/1?iron=FeO#chemistry`);
  });

  it("is 404 for a revision or a recipe that is not there", async () => {
    for (const path of [
      `${slug}/revisions/2/numbers/loss`,
      `${slug}/revisions/x/numbers/loss`,
      "nowhere/revisions/1/numbers/loss",
    ]) {
      expect((await studio.send("visitor", `/recipes/${path}`)).status).toBe(404);
    }
  });

  it.each(["unity.BaO", "nothing", "constructor", "unity.SiO2%00"])(
    "has no number %s",
    async (name) => {
      const answer = await studio.send("visitor", `/recipes/${slug}/revisions/1/numbers/${name}`);
      expect(answer.status).toBe(404);
    },
  );

  it("keeps a private recipe's numbers private", async () => {
    const hidden = await publish(studio, { shownTo: "private" });
    const seen: Who[] = [];
    for (const who of everybody) {
      const answer = await studio.send(who, `/recipes/${hidden}/revisions/1/numbers/loss`);
      if (answer.status === 200) seen.push(who);
    }
    expect(seen).toEqual(["author", "manager"]);
  });

  const asked = (change: string) => ({
    "lines.0.part": "base",
    "lines.0.material": "Potash feldspar",
    "lines.0.amount": "60",
    "lines.1.part": "base",
    "lines.1.material": "Whiting",
    "lines.1.amount": "40",
    change,
  });

  it("answers in the form where nothing is stored, above the other numbers", async () => {
    const form = asked("ask-unity.SiO2");
    const page = await (await studio.send("visitor", "/chemistry", { form })).text();
    expect(page).toContain("SiO2 in the unity formula");
    expect(page).toContain("What its ± is of");
    expect(page).toContain('value="ask-unity.CaO"');
    expect(page.indexOf("answer-to-asked")).toBeLessThan(page.indexOf('class="chemistry"'));
    expect(page).toContain('value="Potash feldspar"');
  });

  it("answers in the form of a recipe without publishing it", async () => {
    const lines = Object.entries(asked("ask-loss")).map(([name, value]) => [
      name.replace(/^lines/, "revision.lines"),
      value,
    ]);
    const form = { name: "Ebb Green", idempotencyKey: "ask-1", ...Object.fromEntries(lines) };
    const answer = await studio.send("author", "/recipes", { form });
    expect(answer.status).toBe(200);
    expect(await answer.text()).toContain(
      '<h3 id="asked-number" tabindex="-1" autofocus="">Loss on ignition</h3>',
    );
    expect((await studio.send("author", "/recipes/ebb-green")).status).toBe(404);
  });

  it.each(["ask-", "ask-unity.BaO", "ask-<script>", "ask-constructor"])(
    "shows the form as it is after %j",
    async (change) => {
      const answer = await studio.send("visitor", "/chemistry", { form: asked(change) });
      expect(answer.status).toBe(200);
      expect(await answer.text()).not.toContain("answer-to-asked");
    },
  );
});
