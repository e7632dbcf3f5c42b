import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Own = { wishes: { mail: string; feed: boolean }; sendsMail: boolean };

describe("wishing to be told by mail", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const wishOf = async (who: Who) => (await studio.json<Own>(who, "/account")).wishes.mail;

  it.each<[Who, string, number]>([
    ["visitor", "daily", 401],
    ["author", "daily", 200],
    ["reviewer", "at once", 200],
    ["manager", "off", 200],
    ["other member", "hourly", 422],
  ])("answers the %s who wishes it %s with %i", async (who, mail, status) => {
    const sent = await studio.send(who, "/account/mail", { method: "PUT", json: { mail } });
    expect(sent.status).toBe(status);
    if (who !== "visitor") expect(await wishOf(who)).toBe(status === 200 ? mail : "off");
  });

  it("is off until somebody wishes it, and taken back by a form", async () => {
    expect(await wishOf("other member")).toBe("off");
    for (const mail of ["daily", "off"]) {
      const answer = await studio.send("other member", "/account/mail", { form: { mail } });
      expect([answer.status, answer.headers.get("location")]).toEqual([303, "/account#telling"]);
      expect(await wishOf("other member")).toBe(mail);
    }
  });

  it("is kept where the studio sends no mail, and the page says so", async () => {
    const page = await (await studio.send("author", "/account")).text();
    expect(page).toContain("This studio sends no mail.");
    const variables = {
      SMTP_URL: "smtp://localhost:2525",
      MAIL_FROM: "glazes@saltmarsh.example",
      PUBLIC_URL: "http://localhost",
    };
    const sending = await openTestStudio(variables);
    expect((await sending.json<Own>("author", "/account")).sendsMail).toBe(true);
    const told = await (await sending.send("author", "/account")).text();
    expect(told).not.toContain("This studio sends no mail.");
    await sending.close();
    const unreachable = await openTestStudio({ ...variables, PUBLIC_URL: "" });
    expect((await unreachable.json<Own>("author", "/account")).sendsMail).toBe(false);
    await unreachable.close();
  });
});
