import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { callsOf } from "../../src/wire/described.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

type Description = {
  openapi: string;
  paths: Record<
    string,
    Record<
      string,
      {
        summary: string;
        requestBody?: {
          content: Record<string, { schema: { properties?: Record<string, unknown> } }>;
        };
      }
    >
  >;
};

describe("/openapi.json", () => {
  let studio: TestStudio;
  let description: Description;
  beforeAll(async () => {
    studio = await openTestStudio();
    description = await studio.json<Description>("visitor", "/openapi.json");
  });
  afterAll(() => studio.close());

  it("has every route that the app answers", () => {
    const calls = callsOf(studio.app).filter(({ path }) => path !== "/");
    expect(calls.length).toBeGreaterThan(30);
    const missing = calls.filter(
      ({ method, path }) =>
        !description.paths[path.replace(/:(\w+)(\{[^}]*\})?/g, "{$1}")]?.[method.toLowerCase()],
    );
    expect(missing).toEqual([]);
  });

  it("describes a body by the schema that reads it", () => {
    const schema =
      description.paths["/recipes"]?.post?.requestBody?.content["application/json"]?.schema;
    expect(Object.keys(schema?.properties ?? {})).toEqual(["name", "shownTo", "revision"]);
  });

  it("names the answer to a refusal", () => {
    expect(JSON.stringify(description.paths["/recipes"]?.post)).toContain(
      "application/problem+json",
    );
  });
});
