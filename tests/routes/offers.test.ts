import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { offers as stored } from "../../src/db/schema/index.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Lines = Parameters<typeof revision>[1];
type Offer = {
  id: string;
  base: unknown;
  answer: { accepted: boolean; why: string; revision: number | null } | null;
  basedOn: number;
  merge: { path: string; take: string | null; recipe: string; offer: string }[];
};
type Recipe = {
  head: {
    number: number;
    author: { name: string };
    coauthors: { name: string }[];
    message: string;
    surface: string;
    lines: { material: string; amount: string; analysis: { id: string } }[];
  };
};

let studio: TestStudio;
beforeAll(async () => {
  studio = await openTestStudio();
  await stockShelf(studio);
});
afterAll(async () => {
  expect(studio.logged).toEqual([]);
  await studio.close();
});

const base: [string, string][] = [
  ["potash-feldspar", "40"],
  ["whiting", "20"],
  ["quartz", "25"],
  ["kaolin", "15"],
];
const withAmount = (material: string, amount: string): [string, string][] =>
  base.map(([name, known]) => [name, name === material ? amount : known]);

let named = 0;

/** The author's recipe, and the other member's fork of it with a revision of its own. */
async function forked(fork: Lines = withAmount("quartz", "27"), different = {}) {
  named += 1;
  const slug = await publish(studio, { lines: base });
  const name = `Ebb Green ${named}`;
  const answer = await studio.send("other member", `/recipes/${slug}/forks`, { json: { name } });
  const { slug: from } = (await answer.json()) as { slug: string };
  await revise("other member", from, fork, different);
  return { slug, from };
}

async function revise(who: Who, slug: string, lines: Lines, different = {}) {
  const basedOn = (await read(slug)).head.number;
  const json = { basedOn, ...revision(different, lines) };
  const answer = await studio.send(who, `/recipes/${slug}/revisions`, { json });
  if (answer.status !== 201) throw new Error(await answer.text());
}

const read = (slug: string) => studio.json<Recipe>("manager", `/recipes/${slug}`);
const amounts = async (slug: string) =>
  (await read(slug)).head.lines.map(({ material, amount }) => `${material} ${amount}`);

async function offer({ slug, from }: { slug: string; from: string }, who: Who = "other member") {
  const json = { from, why: "It does not craze any more." };
  const answer = await studio.send(who, `/recipes/${slug}/offers`, { json });
  return { status: answer.status, made: (await answer.json()) as Offer & { errors: unknown } };
}

const put = (who: Who, id: string, json: object) =>
  studio.send(who, `/offers/${id}/answer`, { method: "PUT", json });
const accept = { accept: true, why: "Thank you." };
const find = (id: string, who: Who = "author") => studio.json<Offer>(who, `/offers/${id}`);

describe("offering a fork back", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 201],
    ["reviewer", 403],
    ["manager", 403],
  ])("answers the %s with %i", async (who, status) => {
    const both = await forked();
    expect((await offer(both, who)).status).toBe(status);
    const { items } = await studio.json<{ items: Offer[] }>(
      "visitor",
      `/recipes/${both.slug}/offers`,
    );
    expect(items).toHaveLength(status === 201 ? 1 : 0);
  });

  it("is open to who wrote the revision, though the fork is another's", async () => {
    const both = await forked();
    await revise("manager", both.from, withAmount("quartz", "29"));
    expect((await offer(both, "manager")).status).toBe(201);
  });

  it.each(everybody)("is told to the %s on both recipes' pages", async (who) => {
    const both = await forked();
    const { made } = await offer(both);
    for (const slug of [both.slug, both.from]) {
      const page = await (await studio.send(who, `/recipes/${slug}`)).text();
      expect(page).toContain(`href="/offers/${made.id}"`);
      expect(page).toContain("It does not craze any more.");
      expect(page).toContain("Open: nobody has answered it yet.");
      const recipe = await studio.json<{ offers: object[] }>(who, `/recipes/${slug}`);
      expect(recipe.offers).toMatchObject([{ id: made.id, answer: null }]);
    }
  });

  it("takes a form and goes on to the offer", async () => {
    const { slug, from } = await forked();
    const form = await studio.send("other member", `/recipes/${slug}/offers/new?from=${from}@2`);
    expect(await form.text()).toContain(`value="${from}@2"`);
    const sent = { from: `${from}@2`, why: "Less quartz." };
    const answer = await studio.send("other member", `/recipes/${slug}/offers`, { form: sent });
    expect(answer.status).toBe(303);
    expect(answer.headers.get("location")).toMatch(/^\/offers\/[0-9a-f-]{36}$/);
  });

  it("is refused once more while the first is open", async () => {
    const both = await forked();
    const { made } = await offer(both);
    const again = await offer(both);
    expect(again.status).toBe(409);
    expect(again.made).toMatchObject({ offer: `/offers/${made.id}` });
  });

  it.each<[string, (both: { slug: string; from: string }) => object, string]>([
    ["a recipe that was never forked from it", ({ slug }) => ({ from: slug }), "from"],
    ["what is not there", ({ from }) => ({ from: `${from}@9` }), "from"],
    ["no address", () => ({ from: "Ebb Green, the second" }), "from"],
    ["the fork as it began", ({ from }) => ({ from: `${from}@1` }), "from"],
    ["an offer without a reason", ({ from }) => ({ from, why: "" }), "why"],
    ["a field that is none", ({ from }) => ({ from, lines: [] }), "lines"],
  ])("refuses %s, by its field, and keeps nothing", async (_, sent, path) => {
    const both = await forked();
    const before = await studio.db.$count(stored);
    const json = { why: "Because.", ...sent(both) };
    const answer = await studio.send("other member", `/recipes/${both.slug}/offers`, { json });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
    expect(await studio.db.$count(stored)).toBe(before);
  });

  it("goes one step back only: the fork of a fork is offered to the fork", async () => {
    const both = await forked();
    const name = `Neap Green ${named}`;
    await studio.send("other member", `/recipes/${both.from}/forks`, { json: { name } });
    const from = `neap-green-${named}`;
    await revise("other member", from, withAmount("whiting", "18"));
    expect((await offer({ slug: both.slug, from })).status).toBe(422);
    expect((await offer({ slug: both.from, from })).status).toBe(201);
  });

  it("does not let on that a private recipe or fork is there", async () => {
    const both = await forked();
    const { made } = await offer(both);
    const json = { shownTo: "private" };
    await studio.send("other member", `/recipes/${both.from}/visibility`, { method: "PUT", json });
    for (const who of ["visitor", "reviewer", "author"] as const) {
      expect((await studio.send(who, `/offers/${made.id}`)).status, who).toBe(404);
      const status = who === "visitor" ? 401 : 404;
      expect((await put(who, made.id, accept)).status, who).toBe(status);
    }
    const page = await (await studio.send("visitor", `/recipes/${both.slug}`)).text();
    expect(page).not.toContain(made.id);
    await revise("other member", both.from, withAmount("quartz", "31"));
    expect((await offer(both)).status).toBe(422);
  });
});

describe("answering an offer", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s with %i, taking it in or declining", async (who, status) => {
    const both = await forked();
    const { made } = await offer(both);
    const blank = { accept: false, why: "Too dry for our cups." };
    expect((await put(who, made.id, accept)).status).toBe(status);
    expect((await read(both.slug)).head.number).toBe(status === 200 ? 2 : 1);
    expect((await find(made.id)).answer?.accepted).toBe(status === 200 ? true : undefined);

    const other = await forked();
    const second = await offer(other);
    expect((await put(who, second.made.id, blank)).status).toBe(status);
    expect((await read(other.slug)).head.number).toBe(1);
    expect((await find(second.made.id)).answer?.why).toBe(status === 200 ? blank.why : undefined);
  });

  it("publishes what both changed, by whoever took it in with whoever offered it", async () => {
    const both = await forked(withAmount("quartz", "27"), { surface: "satin" });
    await revise("author", both.slug, withAmount("whiting", "18"));
    const { made } = await offer(both);
    expect((await find(made.id)).merge.filter(({ take }) => take === null)).toEqual([]);
    // By pencil: 40 + 18 + 27 + 15.
    expect(await find(made.id)).toMatchObject({ base: "100" });
    expect((await put("manager", made.id, accept)).status).toBe(200);
    const { head } = await read(both.slug);
    expect(await amounts(both.slug)).toEqual([
      "potash-feldspar 40",
      "whiting 18",
      "quartz 27",
      "kaolin 15",
    ]);
    expect(head.surface).toBe("satin");
    expect(head.author.name).toBe("Ines Okafor");
    expect(head.coauthors.map(({ name }) => name)).toEqual(["Jonah Brackley"]);
    expect(head.message).toContain("Thank you.");
    const page = await (await studio.send("visitor", `/recipes/${both.slug}`)).text();
    expect(page).toContain("by Ines Okafor with Jonah Brackley");
    expect((await find(made.id)).answer?.revision).toBe(3);
  });

  it("says in the record what happened, in words", async () => {
    const both = await forked();
    const { made } = await offer(both);
    await put("author", made.id, accept);
    const events = await listEvents(studio.db, { subjectId: made.id, limit: 9 });
    expect(events.map(({ kind, subject }) => `${subject} ${kind}`)).toEqual([
      "offer offered",
      "offer offer accepted",
    ]);
    const [last] = (await listEvents(studio.db, { limit: 10_000 })).slice(-1);
    const record = await studio.send("manager", `/events?after=${(last?.seq ?? 0) - 5}`);
    expect(await record.text()).toContain("took an offer into");
  });

  it("puts to the person what both changed, and refuses until it is chosen", async () => {
    const both = await forked(withAmount("quartz", "27"), { surface: "satin" });
    await revise("author", both.slug, withAmount("quartz", "23"), { surface: "matt" });
    const { made } = await offer(both);
    const open = (await find(made.id)).merge.filter(({ take }) => take === null);
    expect(open.map(({ path }) => path)).toEqual(["lines.base:quartz", "fields.surface"]);

    const unchosen = await put("author", made.id, accept);
    expect(unchosen.status).toBe(422);
    const { errors } = (await unchosen.json()) as { errors: { path: string }[] };
    expect(errors.map(({ path }) => path)).toEqual(["lines.base:quartz", "fields.surface"]);
    expect((await read(both.slug)).head.number).toBe(2);

    const form = {
      accept: "true",
      basedOn: "2",
      "lines.base:quartz": "offer",
      why: "Take the quartz.",
    };
    const half = await studio.send("author", `/offers/${made.id}/answer`, { form });
    expect(half.status).toBe(422);
    const page = await half.text();
    expect(page).toContain('href="#field-fields.surface"');
    expect(page).toMatch(/name="lines.base:quartz" value="offer" checked/);
    expect(page).toContain("Take the quartz.</textarea>");

    const whole = { ...form, "fields.surface": "recipe" };
    const taken = await studio.send("author", `/offers/${made.id}/answer`, { form: whole });
    expect([taken.status, taken.headers.get("location")]).toEqual([303, `/offers/${made.id}`]);
    expect(await amounts(both.slug)).toContain("quartz 27");
    expect((await read(both.slug)).head.surface).toBe("matt");
  });

  it("declines with the reason only, which both pages tell", async () => {
    const both = await forked();
    const { made } = await offer(both);
    const silent = await studio.send("author", `/offers/${made.id}/answer`, {
      form: { accept: "false", why: "" },
    });
    expect(silent.status).toBe(422);
    expect(await silent.text()).toContain('href="#field-why"');
    await put("author", made.id, { accept: false, why: "Too dry for our cups." });
    for (const slug of [both.slug, both.from]) {
      const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
      expect(page).toContain("Too dry for our cups.");
    }
  });

  it("is given once", async () => {
    const both = await forked();
    const { made } = await offer(both);
    await put("author", made.id, { accept: false, why: "No." });
    const again = await put("manager", made.id, accept);
    expect(again.status).toBe(409);
    expect((await read(both.slug)).head.number).toBe(1);
    const page = await studio.send("manager", `/offers/${made.id}/answer`, {
      form: { accept: "true" },
    });
    expect(page.status).toBe(409);
  });

  it("is given by one of two at the same moment", async () => {
    const both = await forked();
    const { made } = await offer(both);
    const answers = await Promise.all([
      put("author", made.id, accept),
      put("manager", made.id, { accept: false, why: "No." }),
    ]);
    expect(answers.map(({ status }) => status).sort()).toEqual([200, 409]);
    const { accepted } = (await find(made.id)).answer ?? {};
    expect((await read(both.slug)).head.number).toBe(accepted ? 2 : 1);
  });

  it("takes nothing in where the head moved, and shows both", async () => {
    const both = await forked();
    const { made } = await offer(both);
    await revise("author", both.slug, withAmount("kaolin", "16"));
    const json = { ...accept, basedOn: 1 };
    const answer = await put("manager", made.id, json);
    expect(answer.status).toBe(409);
    expect(await answer.json()).toMatchObject({ type: "/problems/stale", head: { number: 2 } });
    const form = { accept: "true", basedOn: "1", why: "Taking it." };
    const page = await studio.send("manager", `/offers/${made.id}/answer`, { form });
    expect(page.status).toBe(409);
    const text = await page.text();
    expect(text).toContain("Revision 2, there now, beside revision 1");
    expect(text).toContain("Taking it.</textarea>");
    expect(text).toContain('name="basedOn" value="2"');
    expect((await read(both.slug)).head.number).toBe(2);
    expect((await put("manager", made.id, { ...accept, basedOn: 2 })).status).toBe(200);
  });

  it("starts the next offer of the fork from what was taken in", async () => {
    const both = await forked();
    const first = await offer(both);
    expect(first.made.base).toMatchObject({ slug: both.slug, number: 1 });
    await put("author", first.made.id, accept);
    await revise("author", both.slug, withAmount("quartz", "22"));
    await revise("other member", both.from, [
      ...withAmount("quartz", "27"),
      ["barium-carbonate", "2"],
    ]);
    const second = await offer(both);
    expect(second.made.base).toMatchObject({ slug: both.from, number: 2 });
    expect((await put("author", second.made.id, accept)).status).toBe(200);
    expect(await amounts(both.slug)).toEqual([
      "potash-feldspar 40",
      "whiting 20",
      "quartz 22",
      "kaolin 15",
      "barium-carbonate 2",
    ]);
  });

  it("refuses choices that are none", async () => {
    const both = await forked();
    const { made } = await offer(both);
    const json = { ...accept, lines: { "base:quartz": "mine" } };
    expect((await put("author", made.id, json)).status).toBe(422);
    expect((await put("author", "not-an-id", accept)).status).toBe(404);
  });
});
