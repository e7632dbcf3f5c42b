import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("health", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  it("says that the process runs", async () => {
    expect(await studio.json("visitor", "/healthz")).toEqual({ is: "running" });
  });

  it("says that the database answers", async () => {
    expect(await studio.json("visitor", "/readyz")).toEqual({ is: "ready" });
  });

  it("sends a policy that allows no script from elsewhere and no inline script", async () => {
    const answer = await studio.send("visitor", "/nothing-here");
    expect(answer.status).toBe(404);
    const policy = answer.headers.get("content-security-policy") ?? "";
    expect(policy).toContain("default-src 'self'");
    expect(policy).not.toContain("unsafe");
    // What the default does not stand in for: frames, forms and the base of addresses.
    for (const rule of ["frame-ancestors 'none'", "form-action 'self'", "base-uri 'none'"])
      expect(policy).toContain(rule);
  });
});
