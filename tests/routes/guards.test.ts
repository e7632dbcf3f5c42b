import { Hono } from "hono";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { findHeadHash } from "../../src/db/chain.ts";
import { noteVerified } from "../../src/db/verifications.ts";
import type { Env } from "../../src/wire/context.ts";
import { repeatable } from "../../src/wire/repeats.ts";
import { openTestStudio, origin, type TestStudio } from "../studio.ts";

describe("what every request goes through", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  // What a browser sends to another site without asking it first.
  it.each([
    ["without a type", undefined],
    ["as plain text", "text/plain"],
    ["as a form", "application/x-www-form-urlencoded"],
  ])("takes no POST %s from a page of another site", async (_, type) => {
    const { cookies } = studio;
    const answer = await studio.app.request(`${origin}/session/end`, {
      method: "POST",
      headers: {
        ...{ cookie: cookies.author, origin: "https://elsewhere.example" },
        ...(type && { "content-type": type }),
      },
    });
    expect(answer.status).toBe(403);
    expect((await studio.send("author", "/account")).status).toBe(200);
  });

  it("leaves nothing behind of a request with a key that was refused, and the key free", async () => {
    const by = studio.ids.manager;
    const app = new Hono<Env>();
    app.use(async (c, next) => {
      c.set("db", studio.db);
      c.set("viewer", { id: by, name: "Ines Okafor", role: "manager" });
      c.set("now", new Date());
      await next();
    });
    app.use(repeatable);
    let status: 201 | 422 = 422;
    app.post("/", async (c) => {
      await noteVerified(c.var.db, { at: c.var.now, sound: true });
      return c.json({}, status);
    });
    const ask = () =>
      app.request(origin, { method: "POST", headers: { "idempotency-key": "one key" } });
    const before = await findHeadHash(studio.db);
    expect((await ask()).status).toBe(422);
    expect(await findHeadHash(studio.db)).toBe(before);
    status = 201;
    expect((await ask()).status).toBe(201);
    const after = await findHeadHash(studio.db);
    expect(after).not.toBe(before);
    expect((await ask()).status).toBe(201);
    expect(await findHeadHash(studio.db)).toBe(after);
  });
});
