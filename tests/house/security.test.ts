import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "../..");

describe("what is done against what could be done", () => {
  const page = readFileSync(join(root, "docs/security.md"), "utf8");
  const threats = page.split("\n").filter((line) => /^\| (?!what somebody|---)/.test(line));

  it("names a test for each line, and each of them is there", () => {
    expect(threats.length).toBeGreaterThan(25);
    for (const threat of threats) {
      const named = [...threat.matchAll(/`(tests\/[^`]+)`/g)].map(([, path = ""]) => path);
      expect(named.length, threat).toBeGreaterThan(0);
      expect(named.filter((path) => !existsSync(join(root, path)))).toEqual([]);
    }
  });

  it("fetches nothing: no module of the server opens a connection of its own", () => {
    const modules = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" })
      .filter((name) => /\.tsx?$/.test(name))
      .map((name) => ({ name, text: readFileSync(join(root, "src", name), "utf8") }));
    const opening =
      /\bfetch\(|from "(undici|axios|node:https?|node:net|node:tls|node:dgram|node:dns)"/;
    const typesOnly = /^import type .*$/gm;
    const opened = modules.filter(({ text }) => opening.test(text.replace(typesOnly, "")));
    expect(opened.map(({ name }) => name)).toEqual([]);
  });

  it("lets nothing into a page unescaped", () => {
    const unescaped = /dangerouslySetInnerHTML|from "hono\/html".*\braw\b|\braw\(.*\)\}/;
    const drawn = ["views", "src"].flatMap((room) =>
      readdirSync(join(root, room), { recursive: true, encoding: "utf8" })
        .filter((name) => name.endsWith(".tsx"))
        .map((name) => join(room, name)),
    );
    expect(drawn.length).toBeGreaterThan(100);
    expect(drawn.filter((name) => unescaped.test(readFileSync(join(root, name), "utf8")))).toEqual(
      [],
    );
  });
});
