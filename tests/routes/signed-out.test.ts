import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { callsOf } from "../../src/wire/described.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

/** Calls that need no account: they sign in, join by an invite, or store nothing. */
const open = new Set([
  "POST /session",
  "DELETE /session",
  "POST /session/end",
  "POST /people",
  "POST /recovery/:token",
  "POST /reading",
  "POST /chemistry",
  "POST /cone-estimate",
  "POST /slurry",
  "POST /batch",
  "POST /blends",
  "POST /restate",
  "POST /shelf-plan",
  "POST /shelf-reach",
  "POST /recipes/:slug/handout",
  "POST /families/:slug/handout",
  "POST /handouts/:token",
]);

describe("who is signed out", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(() => studio.close());

  const addressOf = (path: string): string =>
    path
      .replace(":slug", path.startsWith("/materials") ? "quartz" : slug)
      .replace(/:sha256/, "0".repeat(64))
      .replace(/:number|:n\b/, "1")
      .replace(/:\w+(\{[^}]*\})?/g, studio.ids.manager);

  it.each([{}, { cookie: "bucket_session=forged" }])(
    "can write nothing, with %j",
    async (headers) => {
      const before = await studio.json("manager", "/events");
      const writes = callsOf(studio.app).filter(
        ({ method, path }) => method !== "GET" && !open.has(`${method} ${path}`),
      );
      expect(writes.length).toBeGreaterThan(25);
      for (const { method, path } of writes) {
        const address = addressOf(path);
        const answer = await studio.send("visitor", address, {
          method,
          json: { why: "x" },
          headers,
        });
        expect({ method, path, status: answer.status }).toEqual({ method, path, status: 401 });
      }
      expect(await studio.json("manager", "/events")).toEqual(before);
    },
  );
});
