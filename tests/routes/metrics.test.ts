import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../src/app.ts";
import { openAuth } from "../../src/auth.ts";
import { readConfig } from "../../src/config.ts";
import { beginTelling } from "../../src/telling.ts";
import { openLog } from "../../src/work/log.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

const token = "only-for-this-test-0123456789";

describe("what an instance tells of its running", () => {
  let studio: TestStudio;
  let slug: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
    slug = await publish(studio);
  });
  afterAll(() => studio.close());

  /** The same studio behind an app that is listened to. */
  const listened = (variables: Record<string, string>) => {
    const lines: string[] = [];
    const config = readConfig(variables);
    const log = openLog(config, { write: (line) => lines.push(line) });
    const telling = beginTelling(config, log);
    const app = createApp({
      ...{ db: studio.db, config, auth: openAuth(false) },
      ...{ telling, metrics: telling.metrics },
    });
    const ask = (path: string, headers: Record<string, string> = {}) =>
      app.request(`http://localhost${path}`, { headers });
    return { ask, lines, app };
  };

  it("is counted by the pattern of an address, for whoever has the token", async () => {
    const { ask } = listened({ METRICS_TOKEN: token });
    await ask(`/recipes/${slug}`);
    await ask("/nowhere/at-all");
    const answer = await ask("/metrics", { authorization: `Bearer ${token}` });
    expect(answer.status).toBe(200);
    expect(answer.headers.get("content-type")).toContain("version=0.0.4");
    expect(answer.headers.get("cache-control")).toBe("no-store");
    const text = await answer.text();
    expect(text).toContain(
      'bucket_request_seconds_count{method="GET",route="/recipes/:slug",status="200"} 1',
    );
    expect(text).toContain(
      'bucket_request_seconds_count{method="GET",route="unknown",status="404"} 1',
    );
    expect(text).not.toContain(slug);
    expect(text).toContain("process_resident_memory_bytes");
  });

  it.each([
    ["no token is set", {}, `Bearer ${token}`],
    ["none is sent", { METRICS_TOKEN: token }, undefined],
    ["another is sent", { METRICS_TOKEN: token }, "Bearer something-else-entirely"],
  ])("is not there where %s", async (_, variables, authorization) => {
    const { ask } = listened(variables);
    const answer = await ask("/metrics", authorization ? { authorization } : {});
    expect(answer.status).toBe(404);
  });

  it("is a line for each request, without its address, who asked or what for", async () => {
    const { ask, lines } = listened({});
    const secret = "a-link-that-lets-somebody-in";
    await ask(`/shared/${secret}?q=marta`, { cookie: studio.cookies.manager });
    const [line = ""] = lines;
    expect(JSON.parse(line)).toMatchObject({
      level: "info",
      id: expect.stringMatching(/^[\w-]{10,}$/),
      method: "GET",
      route: "/shared/:token",
      status: 404,
      milliseconds: expect.any(Number),
    });
    expect(line).not.toMatch(/a-link|marta|bucket_session/);
  });

  it("is told with the number that the page gave, where something broke", async () => {
    const { lines } = listened({});
    const telling = beginTelling(
      readConfig({}),
      openLog(readConfig({}), { write: (line) => lines.push(line) }),
    );
    const gone = () => {
      throw new Error("it is gone");
    };
    const broken = { ...studio.db, select: gone };
    const app = createApp({
      ...{ db: broken as never, config: readConfig({}), auth: openAuth(false), telling },
    });
    for (const accept of ["application/json", "text/html"]) {
      const answer = await app.request("http://localhost/recipes", { headers: { accept } });
      expect(answer.status).toBe(500);
      const fault = JSON.parse(lines.at(-2) ?? "");
      expect(fault).toMatchObject({ level: "error", broke: { says: "it is gone" } });
      expect(await answer.text()).toContain(fault.id);
      expect(fault.broke.at.length).toBeGreaterThan(0);
    }
  });
});
