import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ask, join, password } from "../joined.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("too many wrong passwords", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  let lastAddress = 0;
  const newAddress = () => {
    lastAddress += 1;
    return `198.51.100.${lastAddress}`;
  };
  type Try = { email: string; password?: string; address: string };
  const attempt = async ({ email, password: typed = "a wrong password", address }: Try) =>
    ask(studio, "/session", { json: { email, password: typed }, address });
  const wrongTimes = async (times: number, one: Try) => {
    const statuses: number[] = [];
    for (let n = 0; n < times; n += 1) statuses.push((await attempt(one)).status);
    return statuses;
  };

  it("stop at ten for one e-mail, whatever the address, and the right one waits too", async () => {
    const { email } = await join(studio);
    const wrong = await wrongTimes(10, { email, address: newAddress() });
    expect(wrong).toEqual(Array(10).fill(401));
    const refused = await attempt({ email, password, address: newAddress() });
    expect(refused.status).toBe(429);
    expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(800);
    expect(Number(refused.headers.get("retry-after"))).toBeLessThanOrEqual(900);
    expect(await refused.json()).toMatchObject({
      status: 429,
      detail: expect.stringMatching(/Wait 15 minutes/),
    });
    expect(refused.headers.get("set-cookie")).toBeNull();
  });

  it("leave everybody else alone", async () => {
    const [kept, other] = [await join(studio), await join(studio)];
    const address = newAddress();
    await wrongTimes(11, { email: kept.email, address });
    expect((await attempt({ email: other.email, password, address })).status).toBe(200);
  });

  it("are forgotten with the right one", async () => {
    const { email } = await join(studio);
    const address = newAddress();
    await wrongTimes(9, { email, address });
    expect((await attempt({ email, password, address })).status).toBe(200);
    expect(await wrongTimes(9, { email, address })).toEqual(Array(9).fill(401));
    expect((await attempt({ email, password, address })).status).toBe(200);
  });

  it("stop at thirty for one address, whatever the e-mail", async () => {
    const { email } = await join(studio);
    const address = newAddress();
    for (let n = 0; n < 30; n += 1)
      expect((await attempt({ email: `guess-${n}@saltmarsh.example`, address })).status).toBe(401);
    expect((await attempt({ email, password, address })).status).toBe(429);
    expect((await attempt({ email, password, address: newAddress() })).status).toBe(200);
  });

  it("stop at ten where all come at the same moment", async () => {
    const { email } = await join(studio);
    const answers = await Promise.all(
      Array.from({ length: 24 }, () => attempt({ email, address: newAddress() })),
    );
    const statuses = answers.map(({ status }) => status);
    expect(statuses.filter((status) => status === 401).length).toBeLessThanOrEqual(10);
    expect(statuses.filter((status) => status === 401 || status === 429)).toHaveLength(24);
  });

  it("are not undone by a request that wants to be repeatable", async () => {
    const { email, cookie } = await join(studio);
    const address = newAddress();
    const withKey = await ask(studio, "/session", {
      json: { email, password: "a wrong password" },
      cookie,
      address,
      headers: { "idempotency-key": "again and again" },
    });
    expect(withKey.status).toBe(422);
    const inForm = await ask(studio, "/session", {
      form: { email, password: "a wrong password", idempotencyKey: "again" },
      cookie,
      address,
    });
    expect(inForm.status).toBe(422);
    expect(await wrongTimes(11, { email, address })).toEqual([...Array(10).fill(401), 429]);
  });

  it("broke nowhere", () => expect(studio.logged).toEqual([]));
});
