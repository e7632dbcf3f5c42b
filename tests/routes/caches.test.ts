import { gunzipSync } from "node:zlib";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("what may be kept of an answer", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(() => studio.close());

  const page = (headers: Record<string, string> = {}) =>
    studio.send("author", `/recipes/${slug}`, { headers });

  it("is asked for again each time, by whoever asks, in the form that they ask for", async () => {
    const { headers } = await page();
    expect(headers.get("cache-control")).toBe("private, no-cache");
    for (const name of ["Accept", "HX-Request-Type", "Cookie"])
      expect(headers.get("vary")).toContain(name);
    expect(headers.get("access-control-allow-origin")).toBeNull();
  });

  it("is not sent again to who has it", async () => {
    const json = await studio.send("author", "/recipes", { accept: "application/json" });
    const tag = json.headers.get("etag") ?? "";
    const again = await studio.send("author", "/recipes", {
      accept: "application/json",
      headers: { "if-none-match": tag },
    });
    expect(again.status).toBe(304);
    expect(await again.text()).toBe("");
    const html = await studio.send("author", "/recipes", { headers: { "if-none-match": tag } });
    expect(html.status).toBe(200);
  });

  it("comes compressed to who takes that", async () => {
    const answer = await page({ "accept-encoding": "gzip" });
    expect(answer.headers.get("content-encoding")).toBe("gzip");
    expect(gunzipSync(Buffer.from(await answer.arrayBuffer())).toString()).toContain(
      "<!doctype html>",
    );
  });

  it.each(["tokens.css", "app.js", "htmx.min.js", "idb.js", "favicon.svg"])(
    "comes with its type: %s",
    async (name) => {
      const answer = await studio.send("visitor", `/assets/${name}`);
      expect(answer.status).toBe(200);
      expect(answer.headers.get("content-type")).toMatch(/css|javascript|svg/);
      const again = await studio.send("visitor", `/assets/${name}`, {
        headers: { "if-none-match": answer.headers.get("etag") ?? "" },
      });
      expect(again.status).toBe(304);
    },
  );

  it("brings all stylesheets at once, under a name that a browser keeps for good", async () => {
    const html = await (await page()).text();
    const [, address = ""] = /<link rel="stylesheet" href="([^"]+)"/.exec(html) ?? [];
    const answer = await studio.send("visitor", address);
    expect(answer.headers.get("cache-control")).toContain("immutable");
    const text = await answer.text();
    expect(text.indexOf("--paper")).toBeGreaterThan(-1);
    expect(text.lastIndexOf("@page")).toBeGreaterThan(text.indexOf("--paper"));
    // A page from before the last start is dressed too, and asks again soon.
    const before = await studio.send("visitor", "/assets/all-0123456789abcdef.css");
    expect(before.status).toBe(200);
    expect(before.headers.get("cache-control")).not.toContain("immutable");
  });

  it("has the worker at the top, asked for again each time and under the same policy", async () => {
    const answer = await studio.send("visitor", "/sw.js");
    expect(answer.headers.get("content-type")).toContain("text/javascript");
    expect(answer.headers.get("cache-control")).toBe("no-cache");
    expect(answer.headers.get("content-security-policy")).toContain("default-src 'self'");
    expect(await answer.text()).toContain('addEventListener("fetch"');
  });

  it.each(["/assets/..%2fpackage.json", "/assets/nothing.css", "/assets/../package.json"])(
    "has no asset at %s",
    async (path) => {
      expect((await studio.send("visitor", path)).status).toBe(404);
    },
  );
});
