import type { TestStudio } from "./studio.ts";

const laid = new WeakMap<TestStudio, Promise<{ body: string; kiln: string }>>();

/** A dense body and a kiln, put on record once for a test studio. */
function layDown(studio: TestStudio) {
  const before = laid.get(studio);
  if (before) return before;
  const laying = (async () => {
    const body = await made<{ slug: string }>(studio, "/bodies", {
      name: "Loft stoneware",
      cones: { low: "5", high: "7" },
      absorption: { percent: "1.8", source: "demo sheet, invented" },
    });
    const kiln = await made<{ slug: string }>(studio, "/kilns", { name: "Gannet" });
    return { body: body.slug, kiln: kiln.slug };
  })();
  laid.set(studio, laying);
  return laying;
}

/** Posts as the author and reads what was made, or fails the test with what came instead. */
export async function made<T>(studio: TestStudio, path: string, json: unknown): Promise<T> {
  const answer = await studio.send("author", path, { json });
  if (answer.status !== 201)
    throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
  return (await answer.json()) as T;
}

/** A sound tile of a recipe's revision at a cone, in a firing of its own. @returns its id. */
export async function fireTile(
  studio: TestStudio,
  slug: string,
  { revision = 1, cone = "6", ...more }: Record<string, unknown> & { cone?: string } = {},
): Promise<string> {
  const { body, kiln } = await layDown(studio);
  const firing = await made<{ id: string }>(studio, "/firings", {
    kiln,
    kind: "oxidation",
    cone,
    startedAt: "2026-09-01T08:00:00Z",
    witness: [{ cone, bendDegrees: 90 }],
  });
  const tile = { revision, cone, body, firing: firing.id, thicknessMm: "0.8", ...more };
  return (await made<{ id: string }>(studio, `/recipes/${slug}/tiles`, tile)).id;
}

/** A test made on a tile. @returns its id. */
export const testTile = async (
  studio: TestStudio,
  slug: string,
  given: { tile: string; kind: string } & Record<string, unknown>,
): Promise<string> =>
  (
    await made<{ id: string }>(studio, `/recipes/${slug}/tests`, {
      revision: 1,
      method: "as usual",
      outcome: "passed",
      ...given,
    })
  ).id;

/** All that a pale functional glaze at one cone needs. @returns the tile and its tests by kind. */
export async function bringEvidence(studio: TestStudio, slug: string) {
  const tile = await fireTile(studio, slug);
  const tests: Record<string, string> = {};
  for (const kind of ["acid", "alkali", "dishwasher"])
    tests[kind] = await testTile(studio, slug, { tile, kind });
  return { tile, tests };
}
