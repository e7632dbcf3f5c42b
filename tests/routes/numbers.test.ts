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
    const account = await studio.json<Account>(
      "visitor",
      `/recipes/${slug}/revisions/1/numbers/unity.CaO`,
    );
    expect(account.brings).toEqual([{ of: "CaO", lines: [{ line: 1, share: 1 }] }]);
    expect(account.doubts.length).toBeGreaterThan(1);
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

  it("answers in the form where nothing is stored", async () => {
    const form = {
      "lines.0.part": "base",
      "lines.0.material": "Potash feldspar",
      "lines.0.amount": "60",
      "lines.1.part": "base",
      "lines.1.material": "Whiting",
      "lines.1.amount": "40",
      change: "ask-unity.SiO2",
    };
    const page = await (await studio.send("visitor", "/chemistry", { form })).text();
    expect(page).toContain("SiO2 in the unity formula");
    expect(page).toContain("What its ± is of");
    expect(page).toContain('value="ask-unity.CaO"');
  });
});
