import { eq } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { createApp } from "../../src/app.ts";
import { openAuth } from "../../src/auth.ts";
import { readConfig } from "../../src/config.ts";
import { readChain } from "../../src/db/chain.ts";
import type { Database } from "../../src/db/client.ts";
import { offerFirstInvite } from "../../src/db/invites.ts";
import { setWithdrawn } from "../../src/db/recipes.ts";
import { offerRecovery } from "../../src/db/recoveries.ts";
import {
  people,
  recipes,
  reviews,
  revisionStandings,
  shareLinks,
} from "../../src/db/schema/index.ts";
import { settleSome } from "../../src/db/standings.ts";
import { openStudio } from "../../src/db/studios.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { verify } from "../../src/work/verifying.ts";
import { openTestDatabase } from "../engines/open.ts";
import { exportOf, filesIn, rowsIn } from "../exports.ts";
import { openSmallStudio } from "../made-export.ts";
import type { TestStudio } from "../studio.ts";

const password = "four unrelated plain words";

let studio: TestStudio;
let zip: Buffer;
let target: Database;
beforeAll(async () => {
  studio = await openSmallStudio();
  zip = await exportOf(studio.db);
  target = await openTestDatabase();
  // As a first start leaves it: the studio's settings, a link for its first manager, an event.
  await openStudio(target.db, "Our studio");
  expect(await offerFirstInvite(target.db, new Date())).toMatch(/invite=/);
});
afterAll(async () => {
  await studio.close();
  await target.close();
});

describe("a studio restored", () => {
  it("takes the place of a first start, whose link to join ends", async () => {
    const restored = await restoreLibrary(target.db, { bytes: zip }, { now: new Date() });
    const last = (await readChain(studio.db)).head;
    expect(restored).toMatchObject({ kind: "restored", head: last });
    expect((await exportOf(target.db)).equals(zip)).toBe(true);
    expect(await verify(target.db, { last, now: new Date() })).toMatchObject({ sound: true });
    const again = await offerFirstInvite(target.db, new Date());
    expect(again).toBeUndefined();
  });

  it("keeps the approval of a reviewer who has left, and derives it anew without an event", async () => {
    const [review] = await target.db.select().from(reviews);
    const [reviewer] = await target.db
      .select()
      .from(people)
      .where(eq(people.id, review?.by ?? ""));
    expect(reviewer?.removedAt).not.toBeNull();
    const standing = await target.db
      .select({ is: revisionStandings.is, unsettled: revisionStandings.unsettled })
      .from(revisionStandings)
      .where(eq(revisionStandings.revisionId, review?.revisionId ?? ""));
    expect(standing).toEqual([{ is: "approved", unsettled: false }]);
  });

  it("lets nobody in by a password or a link from before, until they set a new one", async () => {
    const [hash] = await target.db.select().from(people).where(eq(people.name, "Ines Okafor"));
    expect(hash?.passwordHash).toMatch(/^\$argon2id\$/);
    const [link] = await target.db.select().from(shareLinks);
    const [before] = await studio.db.select().from(shareLinks);
    expect(link?.id).toBe(before?.id);
    expect(link?.tokenHash).not.toBe(before?.tokenHash);
  });

  it("refuses to be restored over, and stays as it is", async () => {
    const restored = await restoreLibrary(target.db, { bytes: zip }, { now: new Date() });
    expect(restored).toMatchObject({
      kind: "refused",
      says: expect.stringMatching(/people has rows/),
    });
    expect((await exportOf(target.db)).equals(zip)).toBe(true);
  });

  it("holds no secret", async () => {
    const text = Buffer.concat([...(await filesIn(zip)).values()]).toString("latin1");
    expect(text).toContain("ines@saltmarsh.example");
    expect(text).not.toMatch(/argon2/);
    for (const { tokenHash } of await studio.db.select().from(shareLinks))
      expect(text).not.toContain(tokenHash);
  });
});

it("puts on record an approval that ended between export and restore, once the studio runs", async () => {
  const later = await openTestDatabase();
  const now = new Date();
  const [tested] = await studio.db.select().from(recipes).where(eq(recipes.head, 1));
  expect(tested).toBeDefined();
  // Past the pages, which would settle it on the way.
  const { author: by } = studio.ids;
  const taken = { recipeId: tested?.id ?? "", withdrawn: true, forSafety: false, why: "It runs." };
  await setWithdrawn(studio.db, { ...taken, by, at: now });
  const moved = await exportOf(studio.db);
  expect(await restoreLibrary(later.db, { bytes: moved }, { now })).toMatchObject({
    kind: "restored",
  });
  const before = (await readChain(later.db)).head;
  expect(before).toEqual((await readChain(studio.db)).head);
  while ((await settleSome(later.db, { limit: 100, now })) > 0);
  const { head } = await readChain(later.db);
  expect(head.seq).toBe(before.seq + 1);
  const events = rowsIn(await filesIn(await exportOf(later.db)), "events");
  expect(events.at(-1)).toMatchObject({ kind: "standing changed", subjectId: tested?.id });
  await later.close();
});

it("serves every room again, and people who set a new password", async () => {
  const database = await openTestDatabase();
  await restoreLibrary(database.db, { bytes: zip }, { now: new Date() });
  const logged: string[] = [];
  const telling = {
    broken: ({ route, error }: { route: string; error: unknown }) =>
      logged.push(`${route} ${error}`),
  };
  const config = readConfig({});
  const app = createApp({ db: database.db, config, auth: openAuth(false), telling });
  const offered = await offerRecovery(database.db, {
    email: "ines@saltmarsh.example",
    at: new Date(),
  });
  if (offered.kind !== "offered") throw new Error(offered.kind);
  const json = { "content-type": "application/json", accept: "application/json" };
  const post = (path: string, body: object) =>
    app.request(`http://localhost${path}`, {
      method: "POST",
      headers: json,
      body: JSON.stringify(body),
    });
  expect((await post("/session", { email: "ines@saltmarsh.example", password })).status).toBe(401);
  expect((await post(offered.path, { password })).status).toBe(200);
  const signedIn = await post("/session", { email: "ines@saltmarsh.example", password });
  expect(signedIn.status).toBe(200);
  const cookie = signedIn.headers.get("set-cookie")?.split(";")[0] ?? "";
  const slugs = (await database.db.select({ slug: recipes.slug }).from(recipes)).map(
    ({ slug }) => `/recipes/${slug}`,
  );
  for (const path of ["/recipes", "/events", "/people", "/tiles", "/stock", "/buckets", ...slugs]) {
    const answer = await app.request(`http://localhost${path}`, { headers: { cookie } });
    expect(answer.status, path).toBe(200);
  }
  expect(logged).toEqual([]);
  await database.close();
});
