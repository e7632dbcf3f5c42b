import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openAuth } from "../../src/auth.ts";
import { mulberry32 } from "../../src/demo/random.ts";
import { callsOf } from "../../src/wire/described.ts";
import { fuzzed } from "../fuzzed.ts";
import { openRowCounts } from "../row-counts.ts";
import { stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { type Asker, askers, rows } from "./permission-rows.ts";

/** So many requests; FUZZED=10000 looks further, and FUZZ_SEED elsewhere. */
const howMany = Number(process.env.FUZZED ?? 250);
const seed = Number(process.env.FUZZ_SEED ?? 1);

const whoIs: Record<Exclude<Asker, "forged">, Who> = {
  visitor: "visitor",
  member: "other member",
  owner: "author",
  reviewer: "reviewer",
  manager: "manager",
};

/** Counted on purpose where a request is refused: somebody tried to sign in. */
const counting = ["sign_in_attempts"];

describe("requests that nobody would make", () => {
  let studio: TestStudio;
  /** How many rows there are of everything, in one text. */
  let rowCounts: () => Promise<string>;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
    rowCounts = await openRowCounts(studio.db, counting);
  });
  afterAll(() => studio.close());

  const ask = async (who: Asker, { path, init }: ReturnType<typeof fuzzed>) => {
    const cookie =
      who === "forged" ? "bucket_session=forged" : who === "visitor" ? "" : cookieOf(who);
    const headers = { ...(init.headers as Record<string, string>), ...(cookie && { cookie }) };
    return studio.app.request(`http://localhost${path}`, { ...init, headers });
  };
  /** Some of the requests sign out whoever asks. */
  const signInAgain = async (who: Asker) => {
    if (who === "forged" || who === "visitor") return;
    const name = whoIs[who] as keyof TestStudio["cookies"];
    const started = { personId: studio.ids[name], browser: "test", at: new Date() };
    studio.cookies[name] = (await openAuth(false).start(studio.db, started)).split(";")[0] ?? "";
  };
  const cookieOf = (who: Exclude<Asker, "forged" | "visitor">) =>
    studio.cookies[whoIs[who] as keyof TestStudio["cookies"]];

  it("break nothing, get nothing that is not theirs, and leave nothing where they are refused", async () => {
    const random = mulberry32(seed);
    const calls = callsOf(studio.app).filter(({ method, path }) => rows[`${method} ${path}`]);
    expect(calls.length).toBeGreaterThan(250);
    const made = new Map<string, string>();
    let before: string | undefined;
    const seen = { refused: 0, answered: 0 };
    for (let n = 0; n < howMany; n += 1) {
      const { method, path } = calls[Math.floor(random() * calls.length)] as (typeof calls)[number];
      const call = `${method} ${path}`;
      const row = rows[call];
      if (!row) continue;
      const who = askers[Math.floor(random() * askers.length)] as Asker;
      const at = made.get(call) ?? (await row.at(studio));
      if (!made.has(call)) before = undefined;
      made.set(call, at);
      const request = fuzzed(random, { method, at, send: row.send });
      before ??= await rowCounts();
      const answer = await ask(who, request);
      const said = `${n}: ${who} ${method} ${request.path.slice(0, 200)} ${String(request.init.body ?? "").slice(0, 300)}`;
      const text = await answer.text();
      expect(answer.status, `${said}\n${studio.logged.at(-1)}\n${text.slice(0, 300)}`).toBeLessThan(
        500,
      );
      if (answer.status >= 400) {
        seen.refused += 1;
        if (method !== "GET")
          expect(await rowCounts(), `${said} was refused with ${answer.status}`).toBe(before);
        if (answer.status === 401) {
          await signInAgain(who);
          before = undefined;
        }
      } else {
        seen.answered += 1;
        before = undefined;
        const asWritten =
          new URL(`http://localhost${request.path}`).pathname ===
          new URL(`http://localhost${at}`).pathname;
        if (asWritten) expect(row.answers[who], `${said} got ${answer.status}`).toBe("yes");
      }
    }
    expect(seen.refused).toBeGreaterThan(howMany / 5);
    expect(seen.answered).toBeGreaterThan(howMany / 10);
    expect(studio.logged).toEqual([]);
  }, 3_600_000);
});
