import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { studios } from "../../src/db/schema/index.ts";
import { unsettleAll } from "../../src/db/unsettling.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Standing = { is: string; for: string; because: string[]; validUntil: string | null };
type Recipe = {
  standing: Standing;
  approved: { number: number; for: string } | null;
  head: { number: number; digest: string };
  reviews: { verdict: string; by: { name: string }; reasons: string }[];
  notes: { id: string; text: string; blocking: boolean }[];
};

describe("reviews", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());

  const look = (slug: string, who: Who = "author") => studio.json<Recipe>(who, `/recipes/${slug}`);
  const review = (who: Who, slug: string, given: Record<string, unknown> = {}) =>
    studio.send(who, `/recipes/${slug}/reviews`, {
      json: { verdict: "approve", for: "decorative", reasons: "Fires as it says.", ...given },
    });
  const approved = async (who: Who, slug: string, given: Record<string, unknown> = {}) => {
    const answer = await review(who, slug, given);
    if (answer.status !== 201) throw new Error(`${answer.status} ${await answer.text()}`);
  };
  const revise = (
    slug: string,
    lines: [string, string][],
    different: Record<string, unknown> = {},
  ) =>
    studio.send("author", `/recipes/${slug}/revisions`, {
      json: { ...revision(different, lines), basedOn: 1 },
    });

  let melts = 0;
  /** Lines that no other test has: what is the same glaze shares its approvals. */
  const freshLines = (): [string, string][] => {
    melts += 1;
    return [
      ["potash-feldspar", String(40 + melts)],
      ["whiting", "20"],
      ["quartz", "25"],
      ["kaolin", "15"],
    ];
  };
  const fresh = (given: Parameters<typeof publish>[1] = {}) =>
    publish(studio, { lines: freshLines(), ...given });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 403],
    ["other member", 403],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s who approves with %i", async (who, status) => {
    const slug = await fresh();
    expect((await review(who, slug)).status).toBe(status);
    const { standing, approved: which } = await look(slug);
    expect(standing.is).toBe(status === 201 ? "approved" : "draft");
    expect(which).toEqual(
      status === 201 ? expect.objectContaining({ number: 1, for: "decorative" }) : null,
    );
  });

  it("takes a form, and shows the verdict with its reasons", async () => {
    const slug = await fresh();
    const form = { revision: "1", verdict: "approve", for: "decorative", reasons: "Looked at it." };
    const answer = await studio.send("reviewer", `/recipes/${slug}/reviews`, { form });
    expect(answer.status).toBe(303);
    const page = await (await studio.send("author", `/recipes/${slug}`)).text();
    expect(page).toContain("Looked at it.");
    expect(page).toContain("as decorative only");
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["a verdict that is none", { verdict: "like" }, "verdict"],
    ["no reasons", { reasons: " " }, "reasons"],
    ["a revision that is not there", { revision: 9 }, "revision"],
    ["functional of what says decorative", { for: "functional" }, "for"],
  ])("refuses %s with its place", async (_, given, path) => {
    const slug = await fresh();
    const answer = await review("reviewer", slug, given);
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect(errors.map((fault) => fault.path)).toContain(path);
    expect((await look(slug)).reviews).toEqual([]);
  });

  it("refuses functional without evidence and says all that is missing", async () => {
    const slug = await fresh({ different: { use: "functional" } });
    const answer = await review("reviewer", slug, { for: "functional" });
    expect(answer.status).toBe(422);
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map(({ says }) => says).join(" ")).toMatch(
      /No tile was fired at cone 6.*acid.*alkali.*dishwasher/,
    );
    const form = { verdict: "approve", for: "functional", reasons: "It looks fine to me." };
    const again = await studio.send("reviewer", `/recipes/${slug}/reviews`, { form });
    expect(again.status).toBe(422);
    expect(await again.text()).toContain("It looks fine to me.");
    expect((await look(slug)).standing.is).toBe("draft");
  });

  it("may approve as decorative what is meant for functional ware", async () => {
    const slug = await fresh({ different: { use: "functional" } });
    await approved("reviewer", slug);
    const { standing } = await look(slug);
    expect(standing).toMatchObject({ is: "approved", for: "decorative" });
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(page).toContain("approved as decorative only, whatever it is meant for");
    expect(page).not.toContain("Meant for functional ware");
    expect(page).toContain("Keep it off every surface that food, drink, lips or cutlery touch");
  });

  it("is in review once its owner asks, and once only", async () => {
    const slug = await fresh();
    const ask = (who: Who) =>
      studio.send(who, `/recipes/${slug}/review-requests`, { json: { revision: 1 } });
    const answers: number[] = [];
    for (const who of ["visitor", "other member", "reviewer"] as const) {
      answers.push((await ask(who)).status);
    }
    expect(answers).toEqual([401, 403, 403]);
    expect((await look(slug)).standing.is).toBe("draft");
    expect((await ask("author")).status).toBe(201);
    expect((await look(slug)).standing.is).toBe("in review");
    expect((await ask("author")).status).toBe(422);
  });

  describe("what somebody wrote", () => {
    it("is never approved by them, whoever copied it line by line", async () => {
      const lines = freshLines();
      const original = await publish(studio, { who: "reviewer", lines });
      const copy = await publish(studio, { who: "author", lines });
      expect((await review("reviewer", original)).status).toBe(403);
      expect((await review("reviewer", copy)).status).toBe(403);
      expect((await look(original)).standing.is).toBe("draft");
      // Who wrote neither approves both at once: they are the same glaze.
      await approved("manager", copy);
      expect((await look(original)).standing.is).toBe("approved");
      expect((await look(copy)).standing.is).toBe("approved");
    });

    it("does not count for their fork of it, though it counts where they only reviewed", async () => {
      const lines = freshLines();
      const slug = await publish(studio, { lines });
      const forked = await studio.send("reviewer", `/recipes/${slug}/forks`, {
        json: { name: "Tern of the reviewer", revision: 1 },
      });
      const fork = ((await forked.json()) as { slug: string }).slug;
      await approved("reviewer", slug);
      expect((await look(slug)).standing.is).toBe("approved");
      const { standing } = await look(fork);
      expect(standing.is).toBe("in review");
      expect(standing.because.join(" ")).toContain("does not count");
    });

    it("is what a co-author wrote too", async () => {
      const slug = await fresh();
      const forked = await studio.send("reviewer", `/recipes/${slug}/forks`, {
        json: { name: "Tern with a co-author" },
      });
      const fork = ((await forked.json()) as { slug: string }).slug;
      const revised = await studio.send("reviewer", `/recipes/${fork}/revisions`, {
        json: {
          ...revision({}, [
            ["potash-feldspar", "40"],
            ["whiting", "20"],
            ["quartz", "26"],
            ["kaolin", "14"],
          ]),
          basedOn: 1,
        },
      });
      expect(revised.status).toBe(201);
      const offered = await studio.send("reviewer", `/recipes/${slug}/offers`, {
        json: { from: `${fork}@2`, why: "Less kaolin crawls less." },
      });
      expect(offered.status).toBe(201);
      const { id } = (await offered.json()) as { id: string };
      const accepted = await studio.send("author", `/offers/${id}/answer`, {
        method: "PUT",
        json: { accept: true, why: "Thank you." },
      });
      expect(accepted.status).toBe(200);
      expect((await look(slug)).head.number).toBe(2);
      expect((await review("reviewer", slug, { revision: 2 })).status).toBe(403);
      await approved("manager", slug, { revision: 2 });
      expect((await look(slug)).standing.is).toBe("approved");
    });

    it("waits for somebody else in a studio with one reviewer, and the page says who could help", async () => {
      const slug = await fresh({ who: "manager" });
      const page = await (await studio.send("manager", `/recipes/${slug}`)).text();
      expect(page).toContain("Who may review it: Tam Pellew");
      await studio.send("manager", `/people/${studio.ids.reviewer}`, {
        method: "PATCH",
        json: { role: "member" },
      });
      const alone = await (await studio.send("manager", `/recipes/${slug}`)).text();
      expect(alone).toContain("A manager can make somebody else a reviewer");
      await studio.send("manager", `/people/${studio.ids.reviewer}`, {
        method: "PATCH",
        json: { role: "reviewer" },
      });
    });
  });

  describe("an approval", () => {
    it("stays with its revision when a typo is fixed in a new head, and covers the fix", async () => {
      const lines = freshLines();
      const slug = await publish(studio, { lines, different: { about: "Dipp it." } });
      await approved("reviewer", slug);
      const filled = await studio.send("manager", "/buckets", {
        json: { recipe: slug, revision: 1, name: "Big tub", litres: "10" },
      });
      const { id } = (await filled.json()) as { id: string };
      expect((await revise(slug, lines, { about: "Dip it.", message: "typo" })).status).toBe(201);
      expect(await studio.json("author", `/buckets/${id}`)).toMatchObject({
        standing: { is: "approved" },
      });
      const { head, standing, approved: which } = await look(slug);
      expect(head.number).toBe(2);
      expect(standing.is).toBe("approved");
      expect(which).toMatchObject({ number: 2 });
      expect(await studio.json("author", `/recipes/${slug}/revisions/1`)).toMatchObject({
        standing: { is: "approved" },
      });
    });

    it("stays with its revision when another glaze becomes the head", async () => {
      const lines = freshLines();
      const slug = await publish(studio, { lines });
      await approved("reviewer", slug);
      const answer = await revise(slug, lines, { cones: { low: "5", high: "6" } });
      expect(answer.status).toBe(201);
      const { standing, approved: which } = await look(slug);
      expect(standing.is).toBe("draft");
      expect(which).toMatchObject({ number: 1, for: "decorative" });
      const list = await studio.json<{ items: { slug: string; approved: unknown }[] }>(
        "visitor",
        "/recipes?q=slack",
      );
      expect(list.items.find((item) => item.slug === slug)?.approved).toEqual({
        number: 1,
        for: "decorative",
      });
    });

    it("falls at an objection, and stands again once that is closed", async () => {
      const slug = await fresh();
      await approved("reviewer", slug);
      const put = await studio.send("other member", `/recipes/${slug}/notes`, {
        json: { text: "It ran off my pot.", blocking: true },
      });
      expect(put.status).toBe(201);
      const { id } = (await put.json()) as { id: string };
      const fallen = await look(slug);
      expect(fallen.standing.is).toBe("needs another look");
      expect(fallen.standing.because.join(" ")).toContain("An objection on revision 1");
      expect(fallen.approved).toBeNull();
      const closed = await studio.send("other member", `/notes/${id}/answer`, {
        method: "PUT",
        json: { text: "I had it too thick." },
      });
      expect(closed.status).toBe(200);
      expect((await look(slug)).standing.is).toBe("approved");
    });

    it("does not fall at an objection on somebody's private copy, until that is shown", async () => {
      const lines = freshLines();
      const slug = await publish(studio, { lines });
      const copy = await publish(studio, { who: "other member", lines, shownTo: "private" });
      await approved("reviewer", slug);
      await studio.send("other member", `/recipes/${copy}/notes`, {
        json: { text: "Mine crawled.", blocking: true },
      });
      expect((await look(copy, "other member")).standing.is).toBe("needs another look");
      expect((await look(slug)).standing.is).toBe("approved");
      await studio.send("other member", `/recipes/${copy}/visibility`, {
        method: "PUT",
        json: { shownTo: "studio" },
      });
      expect((await look(slug)).standing.is).toBe("needs another look");
    });

    it("ends when the reviewer takes it back, and an overruled objection does not bring it back", async () => {
      const slug = await fresh();
      await approved("reviewer", slug);
      await approved("reviewer", slug, { verdict: "object", reasons: "It blisters after all." });
      const { standing, notes } = await look(slug);
      expect(standing.is).toBe("needs another look");
      const objection = notes.find((note) => note.text === "It blisters after all.");
      expect(objection?.blocking).toBe(true);
      await studio.send("manager", `/notes/${objection?.id}/answer`, {
        method: "PUT",
        json: { overrule: true, why: "Another kiln." },
      });
      const after = await look(slug);
      expect(after.standing.is).toBe("needs another look");
      expect(after.standing.because.join(" ")).toContain("took that back");
      await approved("manager", slug);
      expect((await look(slug)).standing.is).toBe("approved");
    });

    it("is withdrawn with its recipe, and with one that is the same glaze, for safety", async () => {
      const lines = freshLines();
      const [slug, twin] = [await publish(studio, { lines }), await publish(studio, { lines })];
      await approved("reviewer", slug);
      expect((await look(twin)).standing.is).toBe("approved");
      const withdraw = (forSafety: boolean) =>
        studio.send("author", `/recipes/${twin}/withdrawal`, {
          method: "PUT",
          json: { why: "It spits in the kiln.", forSafety },
        });
      expect((await withdraw(true)).status).toBe(200);
      expect((await look(twin)).standing.is).toBe("withdrawn");
      const { standing } = await look(slug);
      expect(standing.is).toBe("needs another look");
      expect(standing.because.join(" ")).toContain("withdrawn for safety");
      await studio.send("author", `/recipes/${twin}/withdrawal`, {
        method: "DELETE",
        json: { why: "It was the shelf, not the glaze." },
      });
      expect((await look(slug)).standing.is).toBe("approved");
    });

    it("ends after as long as the studio lets it hold", async () => {
      const slug = await fresh();
      await approved("reviewer", slug);
      await studio.db.update(studios).set({ approvalMonths: 24 });
      await unsettleAll(studio.db);
      const { standing } = await look(slug);
      expect(standing.is).toBe("approved");
      const months = (new Date(standing.validUntil ?? 0).getTime() - Date.now()) / 2_629_746_000;
      expect(months).toBeGreaterThan(23);
      expect(months).toBeLessThan(25);
      await studio.db.update(studios).set({ approvalMonths: null });
      await unsettleAll(studio.db);
    });
  });

  it("lists what was said for everybody who may see the recipe", async () => {
    const slug = await fresh();
    await approved("reviewer", slug);
    for (const who of everybody) {
      const { items } = await studio.json<{ items: unknown[] }>(who, `/recipes/${slug}/reviews`);
      expect(items).toHaveLength(1);
    }
  });
});
