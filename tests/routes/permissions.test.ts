import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { callsOf } from "../../src/wire/described.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { type Answers, type Asker, askers, elsewhere, rows } from "./permission-rows.ts";

const whoIs: Record<Asker, Who> = {
  visitor: "visitor",
  forged: "visitor",
  member: "other member",
  owner: "author",
  reviewer: "reviewer",
  manager: "manager",
};

describe("who may do what", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
  });
  afterAll(() => studio.close());

  const ask = async (who: Asker, method: string, path: string, sent?: unknown) => {
    const answer = await studio.send(whoIs[who], path, {
      method,
      ...(sent === undefined ? { accept: "application/json" } : { json: sent }),
      ...(who === "forged" && { headers: { cookie: "bucket_session=forged" } }),
    });
    return said(answer.status);
  };

  it("is written down for every call that the app answers, and for no other", () => {
    const calls = callsOf(studio.app).map(({ method, path }) => `${method} ${path}`);
    expect(calls.filter((call) => !rows[call] && !elsewhere.has(call))).toEqual([]);
    expect(Object.keys(rows).filter((call) => !calls.includes(call))).toEqual([]);
  });

  it.each(Object.entries(rows))("%s", async (call, { answers, at, send }) => {
    const [method = ""] = call.split(" ");
    const seen = {} as Record<Asker, string>;
    const refusedFirst = [...askers].sort(
      (one, other) => Number(answers[one] === "yes") - Number(answers[other] === "yes"),
    );
    // What was only looked at, or refused, is as it was: the next may ask about the same.
    let asked: string | undefined;
    for (const who of refusedFirst) {
      asked ??= await at(studio);
      seen[who] = await ask(who, method, asked, send);
      if (method !== "GET" && seen[who] === "yes") asked = undefined;
    }
    expect(seen).toEqual(answers);
    expect(studio.logged).toEqual([]);
  });

  it("hides a private recipe behind every address of it", async () => {
    const slug = await publish(studio, { shownTo: "private" });
    const calls = callsOf(studio.app).filter(({ path }) => path.startsWith("/recipes/:slug"));
    expect(calls.length).toBeGreaterThan(20);
    for (const { method, path } of calls) {
      const address = path
        .replace(":slug", slug)
        .replace(":number", "1")
        .replace(":name", "unity.SiO2");
      for (const who of ["visitor", "member", "reviewer"] as const) {
        const answer = await ask(who, method, address, method === "GET" ? undefined : {});
        const call = `${who}: ${method} ${path}`;
        expect(`${call}: ${answer}`).toMatch(/: (not here|sign in)$/);
        if (who !== "visitor") expect(`${call}: ${answer}`).toBe(`${call}: not here`);
      }
    }
  });
});

function said(status: number): Answers[Asker] | `broke: ${number}` {
  if (status === 401) return "sign in";
  if (status === 403) return "not yours";
  if (status === 404) return "not here";
  return status < 500 ? "yes" : `broke: ${status}`;
}
