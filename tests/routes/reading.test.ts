import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

const usual = {
  ...{ region: null, weight: "g", temperature: "C", heat: "cone", theme: "system" },
  ...{ unity: "fluxes", iron: "Fe2O3", boron: "apart" },
};

describe("how somebody reads", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await studio.send("manager", "/materials/quartz/names", {
      json: { name: "Flint", region: "Far Isles", caution: "Not the flint of the chalk." },
    });
  });
  afterAll(() => studio.close());

  const set = (who: Who, json: unknown) =>
    studio.send(who, "/account/settings", { method: "PUT", json });
  const settings = (who: Who) => studio.json(who, "/account/settings");
  const html = async (who: Who, path: string, cookie?: string) =>
    (await studio.send(who, path, cookie ? { headers: { cookie } } : {})).text();
  /** The cookie that a browser without an account got, as it sends it back. */
  const keeps = async (json: unknown) => {
    const answer = await studio.send("visitor", "/reading", { json });
    expect(answer.status).toBe(200);
    return answer.headers.getSetCookie()[0] ?? "";
  };

  it("is the usual until somebody chooses, with the regions there are", async () => {
    expect(await settings("reviewer")).toEqual({ ...usual, regions: ["Far Isles"] });
  });

  it("keeps what a change does not say", async () => {
    await set("author", { temperature: "F", unity: "fluxes-and-colour" });
    const answer = await set("author", { theme: "dark" });
    expect(await answer.json()).toMatchObject({
      ...{ temperature: "F", unity: "fluxes-and-colour", theme: "dark", weight: "g" },
    });
    await set("author", usual);
    expect(await settings("author")).toMatchObject(usual);
  });

  it("keeps changes of several words made at the same time", async () => {
    const each = [{ weight: "lb" }, { temperature: "F" }, { heat: "temperature" }, { iron: "FeO" }];
    const answers = await Promise.all(each.map((one) => set("other member", one)));
    expect(answers.map(({ status }) => status)).toEqual([200, 200, 200, 200]);
    expect(await settings("other member")).toMatchObject(Object.assign({}, ...each));
    await set("other member", usual);
  });

  it("takes a form, and its region by any spelling, and gives the studio's own back", async () => {
    const sent = { region: "far isles", theme: "light" };
    const answer = await studio.send("manager", "/account/settings", { form: sent });
    expect(answer.status).toBe(303);
    expect(await settings("manager")).toMatchObject({ region: "Far Isles", theme: "light" });
    await studio.send("manager", "/account/settings", { form: { region: "own", theme: "system" } });
    expect(await settings("manager")).toMatchObject({ region: null, theme: "system" });
  });

  it("refuses a region that no powder has a name of, and says which there are", async () => {
    const answer = await set("author", { region: "Nowhere", weight: "lb" });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map(({ path }) => path)).toEqual(["region"]);
    expect(errors[0]?.says).toContain("Far Isles");
    expect(await settings("author")).toMatchObject({ weight: "g" });
  });

  it.each([
    { weight: "stone" },
    { temperature: "K" },
    { heat: "colour" },
    { theme: "sepia" },
    { unity: "all" },
    { iron: "Fe3O4" },
    { boron: "gone" },
    { language: "en" },
  ])("refuses %j and keeps what was typed", async (wrong) => {
    expect((await set("author", wrong)).status).toBe(422);
    const [typed, word] = "heat" in wrong ? ["temperature", "F"] : ["heat", "temperature"];
    const form = { [typed]: word, ...(wrong as Record<string, string>) };
    const page = await studio.send("author", "/account/settings", { form });
    expect(page.status).toBe(422);
    expect(await page.text()).toContain(`<option value="${word}" selected`);
    expect(await settings("author")).toMatchObject(usual);
  });

  it("writes one event that does not say what was chosen", async () => {
    await set("author", { theme: "dark" });
    await set("author", {});
    const { items } = await studio.json<{ items: { kind: string; detail: unknown }[] }>(
      "manager",
      `/events?subject=person&kind=settings%20changed&who=${studio.ids.author}&before=999999`,
    );
    expect(items[0]?.kind).toBe("settings changed");
    expect(JSON.stringify(items)).not.toContain("dark");
    await set("author", usual);
  });

  it.each(everybody)("has a page for %s", async (who) => {
    expect((await studio.send(who, "/reading")).status).toBe(200);
    expect((await studio.send(who, "/account/settings")).status).toBe(
      who === "visitor" ? 401 : 200,
    );
    expect((await set(who, {})).status).toBe(who === "visitor" ? 401 : 200);
  });

  describe("without an account", () => {
    it("is kept in a cookie that no script reads and no other site sends", async () => {
      const cookie = await keeps({ theme: "dark", region: "Far Isles" });
      expect(cookie).toMatch(/^reading=/);
      expect(cookie).toMatch(/HttpOnly/);
      expect(cookie).toMatch(/SameSite=Lax/);
      expect(cookie).toMatch(/Max-Age=31536000/);
      const [sent = ""] = cookie.split(";");
      expect(await html("visitor", "/recipes", sent)).toContain(
        '<html lang="en" data-theme="dark"',
      );
      const answer = await studio.send("visitor", "/reading", {
        accept: "application/json",
        headers: { cookie: sent },
      });
      expect(await answer.json()).toMatchObject({ ...usual, theme: "dark", region: "Far Isles" });
    });

    it.each([
      "theme=sepia",
      "theme=dark&weight=stone",
      "theme=dark&role=manager",
      "theme=dark&region=%00",
      "theme=dark&region=a%0Ab",
      `theme=dark&region=${"x".repeat(500)}`,
      '{"theme":"dark"}',
      "%E0%A4%A",
      "theme=dark%22%3E%3Cscript%3E",
    ])("ignores the forged cookie %s", async (value) => {
      for (const cookie of [`reading=${value}`, `reading=${encodeURIComponent(value)}`]) {
        const answer = await studio.send("visitor", "/recipes", { headers: { cookie } });
        expect(answer.status).toBe(200);
        expect(await answer.text()).toContain('<html lang="en">');
      }
    });

    it("ignores a region that is not on record", async () => {
      const cookie = `reading=${encodeURIComponent("theme=dark&region=Nowhere")}`;
      const page = await html("visitor", "/materials", cookie);
      expect(page).toContain('data-theme="dark"');
      expect(page).not.toContain("Nowhere");
    });

    it("gives way to the account's settings", async () => {
      const [sent = ""] = (await keeps({ theme: "dark" })).split(";");
      const cookie = `${studio.cookies.author}; ${sent}`;
      expect(await html("author", "/recipes", cookie)).toContain('<html lang="en">');
    });

    it("is another copy for a cache for each cookie", async () => {
      const answer = await studio.send("visitor", "/recipes");
      expect(answer.headers.get("vary")).toContain("Cookie");
      expect(answer.headers.get("cache-control")).toContain("private");
    });
  });
});
