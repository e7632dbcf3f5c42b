import { Hono } from "hono";
import { describe, expect, it } from "vitest";
import { z } from "zod";
import { readBody } from "../../src/wire/body.ts";
import type { Ctx } from "../../src/wire/context.ts";
import { day, decimalText, line, text, ticked } from "../../src/wire/fields.ts";

const schema = z.strictObject({
  name: line(10),
  about: text(100, 0).default(""),
  lines: z.array(z.strictObject({ amount: decimalText })).default([]),
  tick: ticked.default(false),
});

const app = new Hono();
app.post("/", async (c) => c.json(await readBody(c as unknown as Ctx, schema)));

const send = async (body: string, type: string) => {
  const answer = await app.request("/", {
    method: "POST",
    body,
    headers: { "content-type": type },
  });
  return answer.json();
};
const form = (fields: Record<string, string>) =>
  send(new URLSearchParams(fields).toString(), "application/x-www-form-urlencoded");
const json = (body: unknown) => send(JSON.stringify(body), "application/json; charset=utf-8");

describe("a body", () => {
  it("reads the same from a form and from JSON", async () => {
    const typed = await form({
      name: " Ebb ",
      "lines.0.amount": "1.50",
      "lines.1.amount": "2",
      tick: "on",
    });
    const sent = await json({
      name: "Ebb",
      lines: [{ amount: "1.50" }, { amount: 2 }],
      tick: true,
    });
    expect(typed).toMatchObject({
      kind: "read",
      value: { name: "Ebb", lines: [{ amount: "1.5" }, { amount: "2" }], tick: true },
    });
    expect(sent).toMatchObject({ kind: "read", value: typed.value });
  });

  it("takes an empty field for one that was not filled in, and keeps what was typed", async () => {
    const read = await form({ name: "", about: "kept" });
    expect(read).toMatchObject({
      kind: "refused",
      status: 422,
      faults: [{ path: "name", says: "This is needed." }],
      typed: { about: "kept" },
    });
  });

  it("names every fault by the name of its field", async () => {
    const read = await json({ name: "x".repeat(11), lines: [{ amount: "1e3" }, { amont: "2" }] });
    const paths = read.faults.map(({ path }: { path: string }) => path).sort();
    expect(paths).toEqual(["lines.0.amount", "lines.1.amont", "lines.1.amount", "name"]);
  });

  it("tells what is missing from what is of the wrong kind", async () => {
    expect(await json({})).toMatchObject({ faults: [{ path: "name", says: "This is needed." }] });
    expect(await json({ name: 7 })).toMatchObject({
      faults: [{ path: "name", says: expect.stringContaining("string is asked for") }],
    });
  });

  it.each(["__proto__.admin", "constructor.prototype.admin"])(
    "makes nothing of the name %s",
    async (name) => {
      await form({ name: "Ebb", [name]: "1" });
      expect(({} as Record<string, unknown>).admin).toBeUndefined();
    },
  );

  it("is neither a form nor JSON: 415", async () => {
    expect(await send("name=Ebb", "text/plain")).toMatchObject({ kind: "refused", status: 415 });
  });

  it.each(["", "{", "[1", "nonsense"])("is not JSON: %j", async (body) => {
    expect(await send(body, "application/json")).toMatchObject({
      kind: "refused",
      status: 422,
      faults: [{ path: "" }],
    });
  });
});

describe("fields", () => {
  it.each(["12.5", "0", "-3", "+1", "0.000001", "1000000"])("reads the number %s", (typed) => {
    expect(decimalText.parse(typed).eq(typed)).toBe(true);
  });

  it.each(["1e3", "NaN", "Infinity", "1,5", "0x10", "", ".5", "5.", "1 000", "٣"])(
    "does not take %j for a number",
    (typed) => {
      expect(decimalText.safeParse(typed).success).toBe(false);
    },
  );

  it.each([Number.NaN, Number.POSITIVE_INFINITY, null, true, {}, []])(
    "does not take %j for a number either",
    (typed) => {
      expect(decimalText.safeParse(typed).success).toBe(false);
    },
  );

  it("keeps one line to one line, and several to plain ones", () => {
    expect(line(20).safeParse("a\nb").success).toBe(false);
    expect(line(20).safeParse("a\u0000b").success).toBe(false);
    expect(text(20).parse("a\r\nb\tc")).toBe("a\nb\tc");
    expect(text(20).safeParse("a\u0007b").success).toBe(false);
  });

  it("reads a day, and no day that is not in the calendar", () => {
    expect(day.safeParse("2026-02-28").success).toBe(true);
    expect(day.safeParse("2026-02-30").success).toBe(false);
    expect(day.safeParse("28.2.2026").success).toBe(false);
  });
});
