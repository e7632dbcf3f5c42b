import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("pages for everybody", () => {
  let studio: TestStudio;
  let onPostgres: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    onPostgres = await openTestStudio({ DATABASE_URL: "postgres://somewhere.example/glazes" });
  });
  afterAll(async () => {
    await studio.close();
    await onPostgres.close();
  });

  const read = async (path: string, of = studio) => {
    const answer = await of.send("visitor", path);
    expect(answer.status).toBe(200);
    return answer.text();
  };

  it.each([
    "respirator",
    "silica",
    "wet sponge",
    "Barium compounds",
    "ventilation",
    "down the drain",
    "Nobody eats",
    "pregnant",
    "Children",
    "Only a laboratory can do it",
    "country&#39;s law",
    "safety data sheet",
    "licensed laboratory",
  ])("caution about: %s", async (words) => {
    expect(await read("/cautions")).toContain(words);
  });

  it("say the cautions in JSON too", async () => {
    type Said = { cautions: { id: string; says: string[] }[] };
    const { cautions } = await studio.json<Said>("visitor", "/cautions");
    expect(cautions.map(({ id }) => id)).toContain("leach");
  });

  it.each(["/cautions", "/about"])("promise nothing at %s", async (path) => {
    expect(await read(path)).not.toMatch(/food[- ]?safe|dinnerware[- ]safe|safe for food/i);
  });

  it("say what the embedded engine is for", async () => {
    expect(await read("/about")).toContain("not a power cut");
    expect(await studio.json("visitor", "/about")).toMatchObject({ engine: "embedded" });
  });

  it("say that Postgres runs, and nothing of where it is", async () => {
    const about = await read("/about", onPostgres);
    expect(about).toContain("Postgres");
    expect(about).not.toContain("power cut");
    expect(about).not.toContain("somewhere.example");
  });

  it("name the licence and where the source is", async () => {
    const about = await read("/about");
    expect(about).toContain("GNU Affero General Public License");
    expect(about).toContain('id="source"');
    expect(about).toContain("Ask the studio for the source");
  });

  it.each(["/session/new", "/cautions", "/about"])("need no account: %s", async (path) => {
    expect(await read(path)).toContain("<h1>");
  });
});
