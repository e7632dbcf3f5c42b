import { v7 as uuidv7 } from "uuid";
import { addBucketUse } from "../../src/db/bucket-uses.ts";
import { planBatch } from "../buying.ts";
import { halves, pictureForm } from "../camera.ts";
import { fireTile, made, testTile } from "../evidence.ts";
import { buy, openMix } from "../mixes.ts";
import { publish, revision } from "../shelf.ts";
import { recall } from "../stock.ts";
import type { TestStudio } from "../studio.ts";

/** Who asks. Owner is the author of the recipe that is asked about, member somebody else. */
export const askers = ["visitor", "forged", "member", "owner", "reviewer", "manager"] as const;
export type Asker = (typeof askers)[number];

export type Answers = Readonly<Record<Asker, "yes" | "sign in" | "not yours" | "not here">>;

type Row = {
  answers: Answers;
  /** Where to ask, made afresh for every change, so that none is answered by what another did. */
  at: (studio: TestStudio) => Promise<string> | string;
  send?: unknown;
};

const answers = (
  visitor: Answers["visitor"],
  member: Answers["member"],
  owner: Answers["owner"],
  reviewer: Answers["reviewer"],
  manager: Answers["manager"],
): Answers => ({ visitor, forged: visitor, member, owner, reviewer, manager });

const anybody = answers("yes", "yes", "yes", "yes", "yes");
const people = answers("sign in", "yes", "yes", "yes", "yes");
const itsOwner = answers("sign in", "not yours", "yes", "not yours", "yes");
const itsOwnerOrReviewer = answers("sign in", "not yours", "yes", "yes", "yes");
const reviewers = answers("sign in", "not yours", "not yours", "yes", "yes");
const managers = answers("sign in", "not yours", "not yours", "not yours", "yes");
const itsMaker = answers("sign in", "not here", "yes", "not here", "yes");
const itsMakerAlone = answers("sign in", "not here", "yes", "not here", "not here");
const whoWrote = answers("sign in", "not yours", "yes", "not yours", "not yours");

let file = 0;

/** An import of one recipe, of which each time another comes. */
const ofImport =
  (rest: string): Row["at"] =>
  async (studio) => {
    file += 1;
    const text = `recipe,material,amount,cone\nTaken in ${file},Quartz,${file}.125,6`;
    const json = { file: text, dryRun: false, matches: { Quartz: "quartz" } };
    const answer = await studio.send("manager", "/import", { json });
    return `/imports/${((await answer.json()) as { id: string }).id}${rest}`;
  };

const to =
  (path: string): Row["at"] =>
  () =>
    path;

const ofRecipe =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/recipes/${await publish(studio)}${rest}`;

const ofWithdrawn =
  (rest: string): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/withdrawal`, {
      method: "PUT",
      json: { why: "It runs." },
    });
    return `/recipes/${slug}${rest}`;
  };

const ofNote =
  (rest: string, blocking = false): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    const note = { text: "Sieve it twice.", blocking };
    const { id } = await made<{ id: string }>(studio, `/recipes/${slug}/notes`, note);
    return `/notes/${id}${rest}`;
  };

let searches = 0;

const ofSearch =
  (rest: string): Row["at"] =>
  async (studio) => {
    searches += 1;
    const search = { name: `Search ${searches}`, query: "cone=6" };
    return `/searches/${(await made<{ id: string }>(studio, "/searches", search)).id}${rest}`;
  };

const ofTile =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/tiles/${await fireTile(studio, await publish(studio))}${rest}`;

const ofPhoto =
  (rest: string): Row["at"] =>
  async (studio) => {
    const tile = await fireTile(studio, await publish(studio));
    const sent = await studio.send("author", `/tiles/${tile}/photos`, {
      form: pictureForm(await halves(40, 30).png().toBuffer()),
      accept: "application/json",
    });
    const { id } = (await sent.json()) as { id: string };
    return `/tiles/${tile}/photos/${id}${rest}`;
  };

const ofTest =
  (rest: string): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    const tile = await fireTile(studio, slug);
    return `/tests/${await testTile(studio, slug, { tile, kind: "acid" })}${rest}`;
  };

/** A pair of two of the owner's glazes. */
const ofPair =
  (rest: string): Row["at"] =>
  async (studio) => {
    const [over, under] = [await publish(studio), await publish(studio)];
    const pair = { over: `${over}@1`, under: `${under}@1` };
    return `/pairs/${(await made<{ id: string }>(studio, "/pairs", pair)).id}${rest}`;
  };

/** An offer of the member's to the owner's recipe. */
const ofOffer =
  (rest: string): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    const fork = await forkOf(studio, slug);
    const offered = await studio.send("other member", `/recipes/${slug}/offers`, {
      json: { from: `${fork}@2`, why: "It crawls less." },
    });
    const { id } = (await offered.json()) as { id: string };
    return `/offers/${id}${rest}`;
  };

/** A planned batch of the owner's recipe. */
const ofPlan =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/plans/${await planBatch(studio, await publish(studio), "1000")}${rest}`;

const ofSupplier = (rest: string): Row["at"] => to(`/suppliers/quayside-ceramics${rest}`);

let forks = 0;

async function forkOf(studio: TestStudio, slug: string): Promise<string> {
  forks += 1;
  const forked = await studio.send("other member", `/recipes/${slug}/forks`, {
    json: { name: `Ebb Green ${forks}` },
  });
  const fork = ((await forked.json()) as { slug: string }).slug;
  const changed = revision({ cones: { low: "5", high: "6" } });
  await studio.send("other member", `/recipes/${fork}/revisions`, {
    json: { ...changed, basedOn: 1 },
  });
  return fork;
}

const ofBody =
  (rest: string): Row["at"] =>
  async (studio) => {
    const name = `Loft stoneware ${uuidv7()}`;
    const { slug } = await made<{ slug: string }>(studio, "/bodies", { name, cones });
    return `/bodies/${slug}${rest}`;
  };

const ofFiring =
  (rest = ""): Row["at"] =>
  async (studio) => {
    const { id } = await made<{ id: string }>(studio, "/firings", await firing(studio));
    await made(studio, `/firings/${id}/readings`, readings);
    return `/firings/${id}${rest}`;
  };

const readings = [
  [0, 20],
  [60, 1222],
];

const firing = async (studio: TestStudio) => {
  const { slug } = await made<{ slug: string }>(studio, "/kilns", { name: `Wren ${uuidv7()}` });
  return { kiln: slug, kind: "oxidation", cone: "6", startedAt: "2026-09-01T08:00:00Z" };
};

const ofFamily =
  (rest: string): Row["at"] =>
  async (studio) => {
    const family = { name: `Terns ${uuidv7()}`, recipes: [await publish(studio)] };
    const answer = await studio.send("author", "/families", { json: family });
    return `/families/${((await answer.json()) as { slug: string }).slug}${rest}`;
  };

const ofKiln: Row["at"] = async (studio) => {
  const { slug } = await made<{ slug: string }>(studio, "/kilns", { name: `Wren ${uuidv7()}` });
  return `/kilns/${slug}`;
};

const ofBucket =
  (rest: string): Row["at"] =>
  async (studio) => {
    const recipe = await publish(studio);
    const bucket = { recipe, revision: 1, name: "Big tub", litres: "10", test: true };
    const answer = await studio.send("manager", "/buckets", { json: bucket });
    return `/buckets/${((await answer.json()) as { id: string }).id}${rest}`;
  };

/** What the code on a bucket of the owner's recipe opens. */
const ofCode: Row["at"] = async (studio) =>
  (await ofBucket("")(studio)).replace(/^\/buckets\//, "/b/");

/** The owner's use of a bucket. */
const ofUse =
  (rest: string): Row["at"] =>
  async (studio) => {
    const bucketId = (await ofBucket("")(studio)).replace("/buckets/", "");
    const use = { bucketId, what: "", by: studio.ids.author, at: new Date() };
    return `/bucket-uses/${await addBucketUse(studio.db, use)}${rest}`;
  };

const ofReport: Row["at"] = async (studio) => {
  const path = await ofBucket("/reports")(studio);
  return `/bucket-reports/${(await made<{ id: string }>(studio, path, { trouble: "thin" })).id}/answer`;
};

/** A lot that the manager bought. */
const ofLot =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/lots/${await buy(studio, "quartz")}${rest}`;

const ofRecall =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/recalls/${await recall(studio, { lot: await buy(studio, "quartz") })}${rest}`;

const recallOfLot: Row["at"] = async (studio) => `/recalls/new?lot=${await buy(studio, "quartz")}`;

/** A mix of the owner's recipe that the manager opened. */
const ofMix =
  (rest: string): Row["at"] =>
  async (studio) =>
    `/mixes/${(await openMix(studio)).id}${rest}`;

const ofLink =
  (rest: string): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    const { id } = await made<{ id: string }>(studio, `/recipes/${slug}/revisions/1/links`, {});
    return `/links/${id}${rest}`;
  };

const ofShared: Row["at"] = async (studio) => {
  const slug = await publish(studio);
  const { link } = await made<{ link: string }>(studio, `/recipes/${slug}/revisions/1/links`, {});
  return new URL(link, "http://localhost").pathname;
};

const ofHandout =
  (rest: string): Row["at"] =>
  async (studio) => {
    const slug = await publish(studio);
    const { id } = await made<{ id: string }>(studio, `/recipes/${slug}/handouts`, {});
    return `/handouts/${id}${rest}`;
  };

const ofHandedOut: Row["at"] = async (studio) => {
  const slug = await publish(studio);
  const { link } = await made<{ link: string }>(studio, `/recipes/${slug}/handouts`, {});
  return new URL(link, "http://localhost").pathname;
};

/** A picture on a tile of what is handed out. */
const ofHandedPicture: Row["at"] = async (studio) => {
  const slug = await publish(studio);
  const tile = await fireTile(studio, slug);
  const sent = await studio.send("author", `/tiles/${tile}/photos`, {
    form: pictureForm(await halves(40, 30).png().toBuffer()),
    accept: "application/json",
  });
  const { sha256 } = (await sent.json()) as { sha256: string };
  const { link } = await made<{ link: string }>(studio, `/recipes/${slug}/handouts`, {});
  return `${new URL(link, "http://localhost").pathname}/photos/${sha256}/200`;
};

const ofMaterialName =
  (rest: string): Row["at"] =>
  async (studio) => {
    const names = "/materials/quartz/names";
    const answer = await studio.send("manager", names, {
      json: { name: `Flint ${uuidv7()}`, region: "Saltmarsh" },
    });
    return `${names}/${((await answer.json()) as { id: string }).id}${rest}`;
  };

const ofAnalysis: Row["at"] = async (studio) => {
  const { items } = await studio.json<{ items: { id: string }[] }>(
    "manager",
    "/materials/quartz/analyses",
  );
  return `/materials/quartz/analyses/${items[0]?.id}`;
};

const blend = {
  kind: "ladder",
  base: { lines: [{ part: "base", material: "quartz", amount: "1" }] },
  addition: "red-iron-oxide",
  to: "2",
  steps: 2,
};

/** A trial of the owner's. */
const ofTrial =
  (rest: string): Row["at"] =>
  async (studio) => {
    const { id } = await made<{ id: string }>(studio, "/trials", { ...blend, name: "Iron" });
    return `/trials/${id}${rest}`;
  };

const ofTrialResult =
  (rest: string): Row["at"] =>
  async (studio) => {
    const path = `${await ofTrial("/points/1/results")(studio)}`;
    const { id } = await made<{ id: string }>(studio, path, { surface: "gloss" });
    return `/trials/results/${id}${rest}`;
  };

const ofInvite =
  (rest: string): Row["at"] =>
  async (studio) => {
    await studio.send("manager", "/invites", { json: { role: "member" } });
    const { invites } = await studio.json<{ invites: { id: string }[] }>("manager", "/people");
    return `/invites/${invites[0]?.id}${rest}`;
  };

const ofRecovery =
  (rest: string): Row["at"] =>
  async (studio) => {
    const path = `/people/${studio.ids["other member"]}/recovery`;
    const answer = await studio.send("manager", path, { json: {} });
    const { id } = (await answer.json()) as { id: string };
    return `/recoveries/${id}${rest}`;
  };

const ofPerson =
  (rest: string): Row["at"] =>
  (studio) =>
    `/people/${studio.ids["other member"]}${rest}`;

const cones = { low: "5", high: "7" };
const why = { why: "For a reason." };
const role = { role: "member" };
const tickOfLine = { grams: "400", key: "key-of-a-row" };
const overrule = { overrule: true, why: "Another kiln." };
const nextRevision = { ...revision({ message: "again" }), basedOn: 1 };
const review = { revision: 1, verdict: "remark", reasons: "Fires well." };
const tile = { revision: 1, cone: "6" };
const test = { revision: 1, kind: "acid", method: "as usual", outcome: "unclear" };
const lot = {
  supplier: "quayside-ceramics",
  packGrams: "5000",
  packPrice: "9.50",
  currency: "GBP",
  grams: "5000",
};
const settings = { name: "Saltmarsh Lane Studio", showsPublic: true, scaleGrams: "0.1" };
const work = {
  lines: [{ material: { name: "Quartz", formula: "SiO2" }, part: "base", amount: "1" }],
};

/**
 * Who may do what: every call of the app by its method and path. "yes" is any answer but a refusal
 * to who asks; what the call does is for the tests of its noun.
 */
export const rows: Record<string, Row> = {
  "GET /assets/:name": { answers: anybody, at: to("/assets/app.js") },
  "GET /icons/:name": { answers: anybody, at: to("/icons/icon-192.png") },
  "GET /manifest.webmanifest": { answers: anybody, at: to("/manifest.webmanifest") },
  "GET /offline": { answers: anybody, at: to("/offline") },
  "GET /sw.js": { answers: anybody, at: to("/sw.js") },
  // Nobody, whatever their role: the token that it asks for belongs to no person.
  "GET /metrics": {
    answers: answers("not here", "not here", "not here", "not here", "not here"),
    at: to("/metrics"),
  },
  "GET /healthz": { answers: anybody, at: to("/healthz") },
  "GET /readyz": { answers: anybody, at: to("/readyz") },
  "GET /": { answers: anybody, at: to("/") },
  "GET /openapi.json": { answers: anybody, at: to("/openapi.json") },
  "GET /cautions": { answers: anybody, at: to("/cautions") },
  "GET /about": { answers: anybody, at: to("/about") },
  "GET /guide": { answers: anybody, at: to("/guide") },
  "GET /guide/names": { answers: anybody, at: to("/guide/names") },
  "GET /guide/:page": { answers: anybody, at: to("/guide/cones") },
  "GET /start": { answers: anybody, at: to("/start?making=mug-or-bowl") },

  "GET /people": { answers: managers, at: to("/people") },
  "GET /people/:id": { answers: managers, at: ofPerson("") },
  "PATCH /people/:id": { answers: managers, at: ofPerson(""), send: role },
  "POST /people/:id": { answers: managers, at: ofPerson(""), send: role },
  "POST /people/:id/recovery": { answers: managers, at: ofPerson("/recovery"), send: {} },
  "DELETE /recoveries/:id": { answers: managers, at: ofRecovery("") },
  "POST /recoveries/:id/end": { answers: managers, at: ofRecovery("/end"), send: {} },
  "GET /studio/about": { answers: managers, at: to("/studio/about") },
  "GET /studio/data": { answers: managers, at: to("/studio/data") },
  "GET /export": { answers: managers, at: to("/export") },
  "GET /people/:which/removal": { answers: managers, at: ofPerson("/removal") },
  "PUT /people/:which/removal": { answers: managers, at: ofPerson("/removal"), send: {} },
  "POST /people/:which/removal": { answers: managers, at: ofPerson("/removal"), send: {} },
  "POST /invites": { answers: managers, at: to("/invites"), send: role },
  "DELETE /invites/:id": { answers: managers, at: ofInvite("") },
  "POST /invites/:id/revocation": { answers: managers, at: ofInvite("/revocation"), send: {} },
  "GET /studio": { answers: managers, at: to("/studio") },
  "PUT /studio": { answers: managers, at: to("/studio"), send: settings },
  "POST /studio": { answers: managers, at: to("/studio"), send: settings },

  "GET /account": { answers: people, at: to("/account") },
  "PUT /account/password": { answers: people, at: to("/account/password"), send: {} },
  "POST /account/password": { answers: people, at: to("/account/password"), send: {} },
  "DELETE /account/sessions": { answers: people, at: to("/account/sessions") },
  "POST /account/sessions/end": { answers: people, at: to("/account/sessions/end"), send: {} },
  "POST /account/feed": { answers: people, at: to("/account/feed"), send: {} },
  "DELETE /account/feed": { answers: people, at: to("/account/feed") },
  "POST /account/feed/end": { answers: people, at: to("/account/feed/end"), send: {} },
  "PUT /account/mail": { answers: people, at: to("/account/mail"), send: { mail: "off" } },
  "POST /account/mail": { answers: people, at: to("/account/mail"), send: { mail: "off" } },
  "GET /account/settings": { answers: people, at: to("/account/settings") },
  "PUT /account/settings": { answers: people, at: to("/account/settings"), send: { weight: "g" } },
  "POST /account/settings": { answers: people, at: to("/account/settings"), send: { weight: "g" } },
  "GET /reading": { answers: anybody, at: to("/reading") },
  "POST /reading": { answers: anybody, at: to("/reading"), send: { weight: "g" } },
  "GET /searches": { answers: people, at: to("/searches") },
  "POST /searches": {
    answers: people,
    at: to("/searches"),
    send: { name: "Whites", query: "q=white" },
  },
  "DELETE /searches/:id": { answers: itsMakerAlone, at: ofSearch("") },
  "POST /searches/:id/end": { answers: itsMakerAlone, at: ofSearch("/end"), send: {} },
  "GET /waiting": { answers: people, at: to("/waiting") },
  "GET /events": { answers: managers, at: to("/events") },

  "GET /materials": { answers: anybody, at: to("/materials") },
  "GET /materials/new": { answers: people, at: to("/materials/new") },
  "POST /materials": { answers: people, at: to("/materials"), send: {} },
  "GET /materials/:slug": { answers: anybody, at: to("/materials/quartz") },
  "GET /materials/:slug/names/new": { answers: people, at: to("/materials/quartz/names/new") },
  "POST /materials/:slug/names": { answers: people, at: to("/materials/quartz/names"), send: {} },
  "DELETE /materials/:slug/names/:id": { answers: managers, at: ofMaterialName("") },
  "POST /materials/:slug/names/:id/removal": {
    answers: managers,
    at: ofMaterialName("/removal"),
    send: {},
  },
  "GET /materials/:slug/analyses": { answers: anybody, at: to("/materials/quartz/analyses") },
  "GET /materials/:slug/analyses/new": {
    answers: people,
    at: to("/materials/quartz/analyses/new"),
  },
  "POST /materials/:slug/analyses": {
    answers: people,
    at: to("/materials/quartz/analyses"),
    send: {},
  },
  "GET /materials/:slug/analyses/:id": { answers: anybody, at: ofAnalysis },
  "GET /materials/:slug/analysis-in-use": {
    answers: managers,
    at: to("/materials/quartz/analysis-in-use"),
  },
  "PUT /materials/:slug/analysis-in-use": {
    answers: managers,
    at: to("/materials/quartz/analysis-in-use"),
    send: {},
  },
  "POST /materials/:slug/analysis-in-use": {
    answers: managers,
    at: to("/materials/quartz/analysis-in-use"),
    send: {},
  },
  "GET /materials/:slug/discontinuation": {
    answers: managers,
    at: to("/materials/quartz/discontinuation"),
  },
  "PUT /materials/:slug/discontinuation": {
    answers: managers,
    at: to("/materials/quartz/discontinuation"),
    send: {},
  },
  "POST /materials/:slug/discontinuation": {
    answers: managers,
    at: to("/materials/quartz/discontinuation"),
    send: {},
  },
  "DELETE /materials/:slug/discontinuation": {
    answers: managers,
    at: to("/materials/quartz/discontinuation"),
    send: {},
  },
  "POST /materials/:slug/discontinuation/end": {
    answers: managers,
    at: to("/materials/quartz/discontinuation/end"),
    send: {},
  },
  "GET /materials/:slug/replacement": {
    answers: people,
    at: to("/materials/barium-carbonate/replacement"),
  },
  "POST /materials/:slug/replacement": {
    answers: managers,
    at: to("/materials/barium-carbonate/replacement"),
    send: {},
  },
  "GET /materials/:slug/lots": { answers: people, at: to("/materials/quartz/lots") },
  "GET /materials/:slug/lots/new": { answers: managers, at: to("/materials/quartz/lots/new") },
  "POST /materials/:slug/lots": { answers: managers, at: to("/materials/quartz/lots"), send: lot },
  "GET /lots/:id": { answers: people, at: ofLot("") },
  "POST /lots/:id/counts": { answers: people, at: ofLot("/counts"), send: { grams: "9" } },
  "GET /lots/:id/uses/new": { answers: people, at: ofLot("/uses/new") },
  "POST /lots/:id/uses": { answers: people, at: ofLot("/uses"), send: { grams: "9", ...why } },
  "GET /imports": { answers: managers, at: to("/imports") },
  "GET /imports/new": { answers: managers, at: to("/imports/new") },
  "GET /imports/:id": { answers: managers, at: ofImport("") },
  "POST /import": { answers: managers, at: to("/import"), send: { file: [], dryRun: true } },
  "PUT /imports/:id/withdrawal": { answers: managers, at: ofImport("/withdrawal"), send: why },
  "POST /imports/:id/withdrawal": { answers: managers, at: ofImport("/withdrawal"), send: why },
  "GET /stock": { answers: people, at: to("/stock") },
  "GET /stock/count": { answers: people, at: to("/stock/count") },
  "POST /stock/counts": { answers: people, at: to("/stock/counts"), send: { counts: [] } },
  "GET /materials/:slug/stock-line": {
    answers: managers,
    at: to("/materials/quartz/stock-line"),
  },
  "PUT /materials/:slug/stock-line": {
    answers: managers,
    at: to("/materials/quartz/stock-line"),
    send: { grams: null },
  },
  "POST /materials/:slug/stock-line": {
    answers: managers,
    at: to("/materials/quartz/stock-line"),
    send: { grams: null },
  },
  "GET /recalls": { answers: people, at: to("/recalls") },
  "GET /recalls/new": { answers: reviewers, at: recallOfLot },
  "POST /recalls": { answers: reviewers, at: to("/recalls"), send: why },
  "GET /recalls/:id": { answers: people, at: ofRecall("") },
  "PUT /recalls/:id/closing": {
    answers: managers,
    at: ofRecall("/closing"),
    send: { done: "Told." },
  },
  "POST /recalls/:id/closing": {
    answers: managers,
    at: ofRecall("/closing"),
    send: { done: "Told." },
  },
  "GET /materials/:slug/gravities/new": {
    answers: managers,
    at: to("/materials/quartz/gravities/new"),
  },
  "POST /materials/:slug/gravities": {
    answers: managers,
    at: to("/materials/quartz/gravities"),
    send: { gravity: "2.65", source: "a handbook" },
  },
  "GET /materials/:slug/data-sheets/new": {
    answers: managers,
    at: to("/materials/quartz/data-sheets/new"),
  },
  "POST /materials/:slug/data-sheets": {
    answers: managers,
    at: to("/materials/quartz/data-sheets"),
    send: { signal: "danger", statements: ["Harmful if inhaled."], source: "an invented sheet" },
  },
  "GET /suppliers": { answers: people, at: to("/suppliers") },
  "POST /suppliers": { answers: reviewers, at: to("/suppliers"), send: {} },
  "GET /powder-changes": { answers: anybody, at: to("/powder-changes") },
  "GET /recomputations": { answers: anybody, at: to("/recomputations") },

  "GET /recipes": { answers: anybody, at: to("/recipes") },
  "GET /recipes/new": { answers: people, at: to("/recipes/new") },
  "POST /recipes": { answers: people, at: to("/recipes"), send: {} },
  "GET /recipes/:slug": { answers: anybody, at: ofRecipe("") },
  "GET /compare": { answers: anybody, at: to("/compare") },
  "GET /recipes/:slug/batch": { answers: anybody, at: ofRecipe("/batch") },
  "GET /recipes/:slug/revisions": { answers: anybody, at: ofRecipe("/revisions") },
  "GET /recipes/:slug/revisions/new": { answers: itsOwner, at: ofRecipe("/revisions/new") },
  "POST /recipes/:slug/revisions": {
    answers: itsOwner,
    at: ofRecipe("/revisions"),
    send: nextRevision,
  },
  "GET /recipes/:slug/revisions/:number": { answers: anybody, at: ofRecipe("/revisions/1") },
  "GET /recipes/:slug/revisions/:number/numbers/:name": {
    answers: anybody,
    at: ofRecipe("/revisions/1/numbers/unity.SiO2"),
  },
  "POST /recipes/:slug/revisions/:number/links": {
    answers: itsOwner,
    at: ofRecipe("/revisions/1/links"),
    send: {},
  },
  "DELETE /links/:id": { answers: itsOwner, at: ofLink("") },
  "POST /links/:id/end": { answers: itsOwner, at: ofLink("/end"), send: {} },
  "GET /shared/:token": { answers: anybody, at: ofShared },
  "GET /recipes/:slug/handout": { answers: anybody, at: ofRecipe("/handout") },
  "POST /recipes/:slug/handout": { answers: anybody, at: ofRecipe("/handout"), send: {} },
  "POST /recipes/:slug/handouts": { answers: itsOwner, at: ofRecipe("/handouts"), send: {} },
  "GET /families/:slug/handout": { answers: anybody, at: ofFamily("/handout") },
  "POST /families/:slug/handout": { answers: anybody, at: ofFamily("/handout"), send: {} },
  "POST /families/:slug/handouts": { answers: itsOwner, at: ofFamily("/handouts"), send: {} },
  "GET /handouts/:token": { answers: anybody, at: ofHandedOut },
  "POST /handouts/:token": { answers: anybody, at: ofHandedOut, send: {} },
  "GET /handouts/:token/photos/:sha256/:width{200|600|1200|full}": {
    answers: anybody,
    at: ofHandedPicture,
  },
  "DELETE /handouts/:id": { answers: itsOwner, at: ofHandout(""), send: {} },
  "POST /handouts/:id/end": { answers: itsOwner, at: ofHandout("/end"), send: {} },
  "GET /recipes/:slug/news": { answers: anybody, at: ofRecipe("/news?since=2026-01-01T00:00:00Z") },
  "GET /recipes/:slug/history": { answers: anybody, at: ofRecipe("/history") },
  "GET /recipes/:slug/moves": { answers: anybody, at: ofRecipe("/moves?set=SiO2:3.6") },
  "GET /recipes/:slug/nearest": { answers: anybody, at: ofRecipe("/nearest") },
  "GET /recipes/:slug/forks/new": { answers: people, at: ofRecipe("/forks/new") },
  "POST /recipes/:slug/forks": { answers: people, at: ofRecipe("/forks"), send: {} },
  "GET /recipes/:slug/offers": { answers: anybody, at: ofRecipe("/offers") },
  "GET /recipes/:slug/offers/new": { answers: people, at: ofRecipe("/offers/new") },
  "POST /recipes/:slug/offers": { answers: people, at: ofRecipe("/offers"), send: {} },
  "GET /offers/:id": { answers: anybody, at: ofOffer("") },
  "PUT /offers/:id/answer": {
    answers: itsOwner,
    at: ofOffer("/answer"),
    send: { accept: false, why: "Not this time." },
  },
  "POST /offers/:id/answer": {
    answers: itsOwner,
    at: ofOffer("/answer"),
    send: { accept: false, why: "Not this time." },
  },
  "PUT /recipes/:slug/withdrawal": { answers: itsOwner, at: ofRecipe("/withdrawal"), send: why },
  "POST /recipes/:slug/withdrawal": { answers: itsOwner, at: ofRecipe("/withdrawal"), send: why },
  "DELETE /recipes/:slug/withdrawal": {
    answers: itsOwner,
    at: ofWithdrawn("/withdrawal"),
    send: why,
  },
  "POST /recipes/:slug/withdrawal/end": {
    answers: itsOwner,
    at: ofWithdrawn("/withdrawal/end"),
    send: why,
  },
  "PUT /recipes/:slug/visibility": {
    answers: itsOwner,
    at: ofRecipe("/visibility"),
    send: { shownTo: "studio" },
  },
  "POST /recipes/:slug/visibility": {
    answers: itsOwner,
    at: ofRecipe("/visibility"),
    send: { shownTo: "studio" },
  },
  "GET /recipes/:slug/reviews": { answers: anybody, at: ofRecipe("/reviews") },
  "POST /recipes/:slug/reviews": { answers: reviewers, at: ofRecipe("/reviews"), send: review },
  "POST /recipes/:slug/review-requests": {
    answers: itsOwner,
    at: ofRecipe("/review-requests"),
    send: {},
  },
  "GET /recipes/:slug/notes": { answers: anybody, at: ofRecipe("/notes") },
  "POST /recipes/:slug/notes": { answers: people, at: ofRecipe("/notes"), send: {} },
  "GET /notes/:id": { answers: anybody, at: ofNote("") },
  "POST /notes/:id/replies": { answers: people, at: ofNote("/replies"), send: {} },
  "PUT /notes/:id/answer": {
    answers: whoWrote,
    at: ofNote("/answer", true),
    send: { text: "It was the shelf." },
  },
  "POST /notes/:id/answer": { answers: managers, at: ofNote("/answer", true), send: overrule },
  "PUT /notes/:id/text": { answers: whoWrote, at: ofNote("/text"), send: { text: "Thrice." } },
  "POST /notes/:id/text": { answers: whoWrote, at: ofNote("/text"), send: { text: "Thrice." } },
  "GET /notes/:which/removal": { answers: managers, at: ofNote("/removal") },
  "PUT /notes/:which/removal": { answers: managers, at: ofNote("/removal"), send: why },
  "POST /notes/:which/removal": { answers: managers, at: ofNote("/removal"), send: why },

  "GET /bodies": { answers: anybody, at: to("/bodies") },
  "GET /bodies/new": { answers: people, at: to("/bodies/new") },
  "POST /bodies": { answers: people, at: to("/bodies"), send: {} },
  "GET /bodies/:slug": { answers: anybody, at: ofBody("") },
  "GET /bodies/:slug/sheets/new": {
    answers: answers("sign in", "not yours", "yes", "yes", "yes"),
    at: ofBody("/sheets/new"),
  },
  "POST /bodies/:slug/sheets": {
    answers: answers("sign in", "not yours", "yes", "yes", "yes"),
    at: ofBody("/sheets"),
    send: { cones },
  },
  "GET /families": { answers: anybody, at: to("/families") },
  "GET /families/new": { answers: people, at: to("/families/new") },
  "POST /families": { answers: people, at: to("/families"), send: {} },
  "GET /families/:slug": { answers: anybody, at: ofFamily("") },
  "GET /families/:slug/edit": { answers: itsOwner, at: ofFamily("/edit") },
  "PUT /families/:slug": { answers: itsOwner, at: ofFamily(""), send: {} },
  "POST /families/:slug": { answers: itsOwner, at: ofFamily(""), send: {} },
  "GET /kilns": { answers: anybody, at: to("/kilns") },
  "POST /kilns": { answers: people, at: to("/kilns"), send: {} },
  "GET /kilns/:slug": { answers: anybody, at: ofKiln },
  "GET /firings": { answers: anybody, at: to("/firings") },
  "GET /firings/new": { answers: people, at: to("/firings/new") },
  "POST /firings": { answers: people, at: to("/firings"), send: {} },
  "GET /firings/:id": { answers: anybody, at: ofFiring() },
  "GET /firings/:id/readings": { answers: anybody, at: ofFiring("/readings") },
  "POST /firings/:id/readings": {
    answers: itsOwnerOrReviewer,
    at: ofFiring("/readings"),
    send: readings,
  },
  "POST /firings/:id/witness": { answers: itsOwnerOrReviewer, at: ofFiring("/witness"), send: {} },
  "POST /firings/:id/costs": { answers: itsOwnerOrReviewer, at: ofFiring("/costs"), send: {} },
  "PUT /firings/:id/withdrawal": { answers: itsOwner, at: ofFiring("/withdrawal"), send: why },
  "POST /firings/:id/withdrawal": { answers: itsOwner, at: ofFiring("/withdrawal"), send: why },
  "GET /recipes/:slug/tiles/new": { answers: people, at: ofRecipe("/tiles/new") },
  "POST /recipes/:slug/tiles": { answers: people, at: ofRecipe("/tiles"), send: tile },
  "GET /tiles": { answers: anybody, at: to("/tiles") },
  "GET /tiles/sheet": { answers: anybody, at: to("/tiles/sheet") },
  "GET /tiles/:id": { answers: anybody, at: ofTile("") },
  "PUT /tiles/:id/withdrawal": { answers: itsOwner, at: ofTile("/withdrawal"), send: why },
  "POST /tiles/:id/withdrawal": { answers: itsOwner, at: ofTile("/withdrawal"), send: why },
  "POST /tiles/:id/photos": { answers: itsOwner, at: ofTile("/photos"), send: {} },
  "GET /tiles/:id/photos/:photo": { answers: anybody, at: ofPhoto("") },
  "GET /tiles/:id/photos/:photo/colour": { answers: itsOwner, at: ofPhoto("/colour") },
  "GET /tiles/:id/colours": { answers: anybody, at: ofTile("/colours") },
  "POST /tiles/:id/colours": { answers: itsOwner, at: ofTile("/colours"), send: {} },
  "GET /recipes/:slug/tests": { answers: anybody, at: ofRecipe("/tests") },
  "GET /recipes/:slug/tests/new": { answers: people, at: ofRecipe("/tests/new") },
  "POST /recipes/:slug/tests": { answers: people, at: ofRecipe("/tests"), send: test },
  "GET /tests/:id": { answers: anybody, at: ofTest("") },
  "GET /pairs": { answers: anybody, at: to("/pairs") },
  "GET /pairs/new": { answers: people, at: to("/pairs/new") },
  "POST /pairs": { answers: people, at: to("/pairs"), send: {} },
  "GET /pairs/:id": { answers: anybody, at: ofPair("") },
  "POST /pairs/:id/reviews": {
    answers: reviewers,
    at: ofPair("/reviews"),
    send: { verdict: "remark", reasons: "Seen." },
  },
  "POST /tests/:id/report": { answers: itsOwner, at: ofTest("/report"), send: {} },
  "POST /tests/:id/photos": { answers: itsOwner, at: ofTest("/photos"), send: {} },
  "PUT /tests/:id/withdrawal": { answers: itsOwner, at: ofTest("/withdrawal"), send: why },
  "POST /tests/:id/withdrawal": { answers: itsOwner, at: ofTest("/withdrawal"), send: why },

  "GET /plans": { answers: people, at: to("/plans") },
  "POST /plans": { answers: managers, at: to("/plans"), send: {} },
  "PUT /plans/:id/end": { answers: managers, at: ofPlan("/end"), send: { is: "mixed" } },
  "POST /plans/:id/end": { answers: managers, at: ofPlan("/end"), send: { is: "mixed" } },
  "GET /shopping": { answers: people, at: to("/shopping") },
  "GET /suppliers/:slug": { answers: people, at: ofSupplier("") },
  "GET /suppliers/:slug/packs/new": { answers: managers, at: ofSupplier("/packs/new") },
  "POST /suppliers/:slug/packs": { answers: managers, at: ofSupplier("/packs"), send: {} },
  "GET /suppliers/:slug/price-list": { answers: managers, at: ofSupplier("/price-list") },
  "POST /suppliers/:slug/price-list": {
    answers: managers,
    at: ofSupplier("/price-list"),
    send: {},
  },
  "GET /suppliers/:slug/terms": { answers: managers, at: ofSupplier("/terms") },
  "PUT /suppliers/:slug/terms": { answers: managers, at: ofSupplier("/terms"), send: {} },
  "POST /suppliers/:slug/terms": { answers: managers, at: ofSupplier("/terms"), send: {} },
  "GET /recipes/:slug/cost": { answers: people, at: ofRecipe("/cost") },
  "GET /buckets/:id/cost": { answers: people, at: ofBucket("/cost") },
  "GET /buckets": { answers: people, at: to("/buckets") },
  "GET /buckets/new": { answers: managers, at: to("/buckets/new") },
  "POST /buckets": { answers: managers, at: to("/buckets"), send: {} },
  "GET /buckets/:id": { answers: people, at: ofBucket("") },
  "POST /buckets/:id/mixes": {
    answers: managers,
    at: ofBucket("/mixes"),
    send: { grams: "1000", scaleGrams: "1" },
  },
  "GET /mixes/:id": { answers: people, at: ofMix("") },
  "PUT /mixes/:id/lines/:n": { answers: people, at: ofMix("/lines/1"), send: tickOfLine },
  "POST /mixes/:id/lines/:n": { answers: people, at: ofMix("/lines/1"), send: tickOfLine },
  "DELETE /mixes/:id/lines/:n": { answers: people, at: ofMix("/lines/1"), send: {} },
  "POST /mixes/:id/lines/:n/undo": { answers: people, at: ofMix("/lines/1/undo"), send: {} },
  "PUT /mixes/:id/finish": { answers: managers, at: ofMix("/finish"), send: { waterGrams: "9" } },
  "POST /mixes/:id/finish": { answers: managers, at: ofMix("/finish"), send: { waterGrams: "9" } },
  "PUT /mixes/:id/giving-up": { answers: managers, at: ofMix("/giving-up"), send: why },
  "POST /mixes/:id/giving-up": { answers: managers, at: ofMix("/giving-up"), send: why },
  "PUT /buckets/:id/state": {
    answers: managers,
    at: ofBucket("/state"),
    send: { is: "empty", why: "All used." },
  },
  "POST /buckets/:id/state": {
    answers: managers,
    at: ofBucket("/state"),
    send: { is: "empty", why: "All used." },
  },

  "GET /buckets/:id/readings": { answers: people, at: ofBucket("/readings") },
  "POST /buckets/:id/readings": {
    answers: people,
    at: ofBucket("/readings"),
    send: { specificGravity: "1.45", litres: "10", stirred: true },
  },
  "POST /buckets/:id/additions": {
    answers: people,
    at: ofBucket("/additions"),
    send: { what: "water", amount: "500", unit: "ml" },
  },
  "GET /buckets/:id/directions": { answers: people, at: ofBucket("/directions") },
  "PUT /buckets/:id/directions": {
    answers: managers,
    at: ofBucket("/directions"),
    send: { sieve: "80 mesh" },
  },
  "POST /buckets/:id/directions": {
    answers: managers,
    at: ofBucket("/directions"),
    send: { sieve: "80 mesh" },
  },
  "GET /buckets/:id/label": { answers: people, at: ofBucket("/label") },
  "GET /b/:id": { answers: anybody, at: ofCode },
  "GET /uses": { answers: people, at: to("/uses") },
  "POST /buckets/:id/uses": { answers: people, at: ofBucket("/uses"), send: {} },
  "DELETE /bucket-uses/:id": { answers: itsMaker, at: ofUse("") },
  "POST /bucket-uses/:id/undoing": { answers: itsMaker, at: ofUse("/undoing"), send: {} },
  "GET /buckets/:id/reports": { answers: people, at: ofBucket("/reports") },
  "POST /buckets/:id/reports": {
    answers: people,
    at: ofBucket("/reports"),
    send: { trouble: "lumpy" },
  },
  "GET /rounds": { answers: people, at: to("/rounds") },
  "POST /rounds/ticks": { answers: people, at: to("/rounds/ticks"), send: {} },
  "GET /bucket-reports/:id/answer": { answers: managers, at: ofReport },
  "PUT /bucket-reports/:id/answer": { answers: managers, at: ofReport, send: { done: "Sieved." } },
  "POST /bucket-reports/:id/answer": { answers: managers, at: ofReport, send: { done: "Sieved." } },

  "GET /chemistry": { answers: anybody, at: to("/chemistry") },
  "POST /chemistry": { answers: anybody, at: to("/chemistry"), send: work },
  "GET /cone-estimate": { answers: anybody, at: to("/cone-estimate") },
  "POST /cone-estimate": { answers: anybody, at: to("/cone-estimate"), send: {} },
  "GET /batch": { answers: anybody, at: to("/batch") },
  "POST /batch": { answers: anybody, at: to("/batch"), send: {} },
  "GET /blends": { answers: anybody, at: to("/blends") },
  "POST /blends": { answers: anybody, at: to("/blends"), send: {} },
  "GET /shelf-plan": { answers: anybody, at: to("/shelf-plan") },
  "POST /shelf-plan": { answers: anybody, at: to("/shelf-plan"), send: {} },
  "GET /shelf-reach": { answers: anybody, at: to("/shelf-reach") },
  "POST /shelf-reach": { answers: anybody, at: to("/shelf-reach"), send: {} },
  "GET /restate": { answers: anybody, at: to("/restate") },
  "POST /restate": { answers: anybody, at: to("/restate"), send: {} },
  "GET /trials": { answers: people, at: to("/trials") },
  "POST /trials": { answers: people, at: to("/trials"), send: {} },
  "GET /trials/:id": { answers: people, at: ofTrial("") },
  "GET /trials/:id/sheet": { answers: people, at: ofTrial("/sheet") },
  "GET /trials/:id/points/:n": { answers: people, at: ofTrial("/points/1") },
  "POST /trials/:id/points/:n/results": {
    answers: people,
    at: ofTrial("/points/1/results"),
    send: {},
  },
  "POST /trials/:id/points/:n/recipe": {
    answers: people,
    at: ofTrial("/points/1/recipe"),
    send: {},
  },
  "PUT /trials/results/:id/withdrawal": {
    answers: itsOwner,
    at: ofTrialResult("/withdrawal"),
    send: why,
  },
  "POST /trials/results/:id/withdrawal": {
    answers: itsOwner,
    at: ofTrialResult("/withdrawal"),
    send: why,
  },
  "POST /trials/results/:id/photos": {
    answers: people,
    at: ofTrialResult("/photos"),
    send: {},
  },
  "GET /slurry": { answers: anybody, at: to("/slurry") },
  "POST /slurry": { answers: anybody, at: to("/slurry"), send: {} },
};

/** Calls that sign in, out or join, or that need a picture's or session's own key: their nouns' tests have them. */
export const elsewhere = new Set([
  "GET /session/new",
  "POST /session",
  "DELETE /session",
  "POST /session/end",
  "GET /recovery/:token",
  "POST /recovery/:token",
  "GET /people/new",
  "POST /people",
  "DELETE /account/sessions/:id",
  "POST /account/sessions/:id/end",
  "GET /photos/:which/removal",
  "PUT /photos/:which/removal",
  "POST /photos/:which/removal",
  "GET /photos/:sha256/:width{200|600|1200|full}",
  "GET /tests/:id/report/:sha256",
  "GET /feeds/:token",
]);
