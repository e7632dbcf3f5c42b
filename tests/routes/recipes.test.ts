import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { listEvents } from "../../src/db/events.ts";
import { publish, revision, stockShelf } from "../shelf.ts";
import { everybody, openTestStudio, type TestStudio, type Who } from "../studio.ts";

type Recipe = {
  slug: string;
  head: {
    number: number;
    digest: string;
    meltDigest: string;
    lines: { material: string; amount: string }[];
    chemistry: { unity: Record<string, { value: number }> };
  };
  standing: { is: string; for: string; because: string[] };
  forkedFrom: { slug: string; number: number } | null;
  notes: { text: string; on: string }[];
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

const read = (who: Who, slug: string) => studio.json<Recipe>(who, `/recipes/${slug}`);
const statusOf = async (who: Who, path: string, json: unknown) =>
  (await studio.send(who, path, { json })).status;

describe("publishing a recipe", () => {
  it("answers with the recipe and its chemistry at once", async () => {
    const json = { name: "Ebb Green", revision: revision() };
    const answer = await studio.send("author", "/recipes", { json });
    expect(answer.status).toBe(201);
    expect(answer.headers.get("location")).toBe("/recipes/ebb-green");
    const recipe = (await answer.json()) as Recipe;
    expect(recipe.standing).toMatchObject({ is: "draft", for: "decorative" });
    const { unity } = recipe.head.chemistry;
    // Fluxes of the unity formula total 1 by its definition (Seger 1886).
    expect((unity.K2O?.value ?? 0) + (unity.CaO?.value ?? 0)).toBeCloseTo(1, 12);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s with %i", async (who, status) => {
    const name = `By the ${who}`;
    expect(await statusOf(who, "/recipes", { name, revision: revision() })).toBe(status);
    const there = await studio.send("manager", `/recipes/by-the-${who.replace(" ", "-")}`, {
      accept: "application/json",
    });
    expect(there.status).toBe(status === 201 ? 200 : 404);
  });

  it("is decorative only unless it says otherwise", async () => {
    const { use: _, ...rest } = revision();
    const answer = await studio.send("author", "/recipes", {
      json: { name: "Unsaid", revision: rest },
    });
    expect(((await answer.json()) as { head: { use: string } }).head.use).toBe("decorative");
  });

  it("refuses a name that is taken, without regard to case", async () => {
    const slug = await publish(studio);
    const { name } = await studio.json<{ name: string }>("author", `/recipes/${slug}`);
    const answer = await studio.send("other member", "/recipes", {
      json: { name: name.toUpperCase(), revision: revision() },
    });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path: "name" }] });
  });

  it.each<[string, Record<string, unknown>, string]>([
    ["an unknown material", revision({}, [["unobtainium", "100"]]), "revision.lines.0.material"],
    [
      "a word that has to be asked about",
      revision({}, [["potash feldspa", "100"]]),
      "revision.lines.0.material",
    ],
    ["a negative amount", revision({}, [["quartz", "-1"]]), "revision.lines.0.amount"],
    [
      "an amount of nothing",
      revision({}, [
        ["quartz", "50"],
        ["whiting", "0"],
      ]),
      "revision.lines.1.amount",
    ],
    ["an amount past a million", revision({}, [["quartz", "1000001"]]), "revision.lines.0.amount"],
    ["an exponent", revision({}, [["quartz", "1e3"]]), "revision.lines.0.amount"],
    ["a base of nothing", revision({}, [["red-iron-oxide", "2", "addition"]]), "revision.lines"],
    [
      "a base line without analysis",
      revision({}, [["loft-stain-coral", "9"]]),
      "revision.lines.0.material",
    ],
    ["cones out of order", revision({ cones: { low: "6", high: "06" } }), "revision.cones.high"],
    ["a cone that is none", revision({ cones: { low: "6.0", high: "6" } }), "revision.cones.low"],
    ["no lines", revision({ lines: [] }), "revision.lines"],
    ["an unknown use", revision({ use: "for food" }), "revision.use"],
  ])("refuses %s, says where, and writes nothing", async (_, refused, path) => {
    const before = await studio.json<{ items: unknown[] }>("manager", "/recipes");
    const answer = await studio.send("author", "/recipes", {
      json: { name: "Refused", revision: refused },
    });
    expect(answer.status).toBe(422);
    expect(answer.headers.get("content-type")).toContain("application/problem+json");
    const { errors } = (await answer.json()) as { errors: { path: string; says: string }[] };
    expect(errors.map((error) => error.path)).toContain(path);
    expect(await studio.json("manager", "/recipes")).toEqual(before);
  });

  it("takes an addition without analysis and says that the chemistry leaves it out", async () => {
    const slug = await publish(studio, {
      lines: [
        ["quartz", "40"],
        ["potash-feldspar", "60"],
        ["loft-stain-coral", "5", "addition"],
      ],
    });
    const page = await (await studio.send("author", `/recipes/${slug}`)).text();
    expect(page).toContain("left out of the chemistry");
  });
});

describe("revising", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 201],
  ])("answers the %s with %i", async (who, status) => {
    const slug = await publish(studio);
    expect(await statusOf(who, `/recipes/${slug}/revisions`, { basedOn: 1, ...revision() })).toBe(
      status,
    );
    expect((await read("author", slug)).head.number).toBe(status === 201 ? 2 : 1);
  });

  it("offers a fork to who may not revise", async () => {
    const slug = await publish(studio);
    const answer = await studio.send("other member", `/recipes/${slug}/revisions`, {
      json: { basedOn: 1, ...revision() },
    });
    expect(((await answer.json()) as { detail: string }).detail).toContain("Fork it instead");
  });

  it("gives one of two at the same moment the revision and shows the other both", async () => {
    const slug = await publish(studio);
    const post = (who: Who, amount: string) =>
      studio.send(who, `/recipes/${slug}/revisions`, {
        json: {
          basedOn: 1,
          ...revision({ message: `whiting ${amount}` }, [
            ["potash-feldspar", "60"],
            ["whiting", amount],
          ]),
        },
      });
    const answers = await Promise.all([post("author", "21"), post("manager", "22")]);
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409]);
    const lost = answers.find(({ status }) => status === 409);
    const problem = (await lost?.json()) as {
      type: string;
      head: { number: number; lines: unknown[] };
    };
    expect(problem.type).toBe("/problems/stale");
    expect(problem.head.number).toBe(2);

    const again = await studio.send("author", `/recipes/${slug}/revisions`, {
      json: { basedOn: 2, ...revision() },
    });
    expect(again.status).toBe(201);
    const kinds = (await listEvents(studio.db, { limit: 1000 }))
      .filter(({ kind }) => kind === "revised")
      .slice(-2);
    expect(kinds.map(({ detail }) => detail.number)).toEqual([2, 3]);
  });

  it("keeps what was typed in the form beside what was there first", async () => {
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/revisions`, {
      json: { basedOn: 1, ...revision({ message: "theirs" }) },
    });
    const form = {
      basedOn: "1",
      message: "mine, typed with care",
      use: "decorative",
      atmosphere: "oxidation",
      surface: "",
      about: "",
      "cones.low": "6",
      "cones.high": "6",
      "lines.0.part": "base",
      "lines.0.material": "Quartz",
      "lines.0.amount": "77",
    };
    const answer = await studio.send("author", `/recipes/${slug}/revisions`, { form });
    expect(answer.status).toBe(409);
    const page = await answer.text();
    expect(page).toContain("mine, typed with care");
    expect(page).toContain('value="77"');
    expect(page).toContain("theirs");
    expect(page).toContain('name="basedOn" value="2"');
  });

  it("leaves earlier revisions as they were", async () => {
    const slug = await publish(studio);
    const first = await studio.json("author", `/recipes/${slug}/revisions/1`);
    await studio.send("author", `/recipes/${slug}/revisions`, {
      json: {
        basedOn: 1,
        ...revision({}, [
          ["quartz", "50"],
          ["whiting", "50"],
        ]),
      },
    });
    expect(await studio.json("author", `/recipes/${slug}/revisions/1`)).toEqual(first);
  });

  it("gives a revision that only says more the same digests", async () => {
    const slug = await publish(studio);
    const { head: before } = await read("author", slug);
    await studio.send("author", `/recipes/${slug}/revisions`, {
      json: { basedOn: 1, ...revision({ about: "A typo less." }) },
    });
    const { head: after } = await read("author", slug);
    expect([after.number, after.digest, after.meltDigest]).toEqual([
      2,
      before.digest,
      before.meltDigest,
    ]);
  });

  it("gives another use another digest and the same melt", async () => {
    const slug = await publish(studio);
    const { head: before } = await read("author", slug);
    await studio.send("author", `/recipes/${slug}/revisions`, {
      json: { basedOn: 1, ...revision({ use: "functional" }) },
    });
    const { head: after } = await read("author", slug);
    expect(after.meltDigest).toBe(before.meltDigest);
    expect(after.digest).not.toBe(before.digest);
  });

  it.each([["0"], ["-1"], ["two"], ["99999999999"], ["1.5"]])(
    "does not find revision %s",
    async (number) => {
      const slug = await publish(studio);
      const answer = await studio.send("author", `/recipes/${slug}/revisions/${number}`);
      expect(answer.status).toBe(404);
    },
  );
});

describe("forking", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s with %i", async (who, status) => {
    const slug = await publish(studio);
    const name = `Fork of ${slug} by ${who}`;
    expect(await statusOf(who, `/recipes/${slug}/forks`, { revision: 1, name })).toBe(status);
  });

  it("keeps lines, pinned analyses and lineage", async () => {
    const slug = await publish(studio);
    const answer = await studio.send("other member", `/recipes/${slug}/forks`, {
      json: { revision: 1, name: `Child of ${slug}` },
    });
    const fork = (await answer.json()) as Recipe;
    const { head } = await read("author", slug);
    expect(fork.forkedFrom).toMatchObject({ slug, number: 1 });
    expect(fork.head.meltDigest).toBe(head.meltDigest);
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(page).toContain(`Child of ${slug}`);
  });

  it("refuses a revision that is not there", async () => {
    const slug = await publish(studio);
    expect(
      await statusOf("author", `/recipes/${slug}/forks`, { revision: 9, name: "Nothing" }),
    ).toBe(422);
  });
});

describe("conventions", () => {
  it("are chosen in the address and said beside the figures", async () => {
    const slug = await publish(studio);
    const usual = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(usual).toContain("Iron counts as Fe₂O₃.");
    const chosen = await (
      await studio.send(
        "visitor",
        `/recipes/${slug}?iron=FeO&unity=fluxes-and-colour&boron=with-alumina`,
      )
    ).text();
    expect(chosen).toContain("Iron counts as FeO in the unity formula");
    expect(chosen).toContain("marked so");
    const nonsense = await (await studio.send("visitor", `/recipes/${slug}?iron=gold`)).text();
    expect(nonsense).toContain("Iron counts as Fe₂O₃.");
  });
});

describe("notes", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 201],
    ["other member", 201],
    ["reviewer", 201],
    ["manager", 201],
  ])("answers the %s with %i", async (who, status) => {
    const slug = await publish(studio);
    const note = {
      revision: 1,
      anchor: { kind: "line", key: "1" },
      text: "Fires well at the back.",
    };
    expect(await statusOf(who, `/recipes/${slug}/notes`, note)).toBe(status);
    const { notes } = await read("visitor", slug);
    expect(notes.map(({ on }) => on)).toEqual(status === 201 ? ["Whiting 20"] : []);
  });

  it("takes the place from a form's one choice", async () => {
    const slug = await publish(studio);
    const form = { revision: "1", on: "line-0", text: "Sieve it twice." };
    expect((await studio.send("other member", `/recipes/${slug}/notes`, { form })).status).toBe(
      303,
    );
    expect((await read("visitor", slug)).notes).toMatchObject([
      { on: "Potash feldspar 40", text: "Sieve it twice." },
    ]);
  });

  it.each([
    ["a line that is not there", { anchor: { kind: "line", key: "9" }, text: "x" }, "anchor.key"],
    ["no words", { text: " " }, "text"],
    ["a whole with a key", { anchor: { kind: "whole", key: "1" }, text: "x" }, "anchor.key"],
  ])("refuses %s", async (_, note, path) => {
    const slug = await publish(studio);
    const answer = await studio.send("author", `/recipes/${slug}/notes`, { json: note });
    expect(answer.status).toBe(422);
    expect(await answer.json()).toMatchObject({ errors: [{ path }] });
  });

  it("shows what is typed as text, never as markup", async () => {
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/notes`, {
      json: { text: "<script>alert(1)</script>" },
    });
    const page = await (await studio.send("visitor", `/recipes/${slug}`)).text();
    expect(page).not.toContain("<script>alert");
    expect(page).toContain("&lt;script&gt;alert");
  });
});

describe("who may know of a recipe", () => {
  const seen: Record<string, Who[]> = {
    public: [...everybody],
    studio: ["author", "other member", "reviewer", "manager"],
    private: ["author", "manager"],
  };
  it.each(Object.keys(seen))("a recipe shown to %s", async (shownTo) => {
    const slug = await publish(studio, { shownTo });
    const finders: Who[] = [];
    for (const who of everybody) {
      const page = await studio.send(who, `/recipes/${slug}`);
      const listed = await studio.json<{ items: { slug: string }[] }>(
        who,
        `/recipes?q=${slug.replaceAll("-", "%20")}`,
      );
      expect(listed.items.some((item) => item.slug === slug)).toBe(page.status === 200);
      if (page.status === 200) finders.push(who);
    }
    expect(finders).toEqual(seen[shownTo]);
  });

  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("lets the %s change it with %i", async (who, status) => {
    const slug = await publish(studio);
    const answer = await studio.send(who, `/recipes/${slug}/visibility`, {
      method: "PUT",
      json: { shownTo: "private" },
    });
    expect(answer.status).toBe(status);
    expect((await studio.send("visitor", `/recipes/${slug}`)).status).toBe(
      status === 200 ? 404 : 200,
    );
  });
});

describe("withdrawing", () => {
  it.each<[Who, number]>([
    ["visitor", 401],
    ["author", 200],
    ["other member", 403],
    ["reviewer", 403],
    ["manager", 200],
  ])("answers the %s with %i", async (who, status) => {
    const slug = await publish(studio);
    const answer = await studio.send(who, `/recipes/${slug}/withdrawal`, {
      method: "PUT",
      json: { why: "It crawls." },
    });
    expect(answer.status).toBe(status);
    expect((await read("visitor", slug)).standing.is).toBe(status === 200 ? "withdrawn" : "draft");
  });

  it("can be undone, and both stay on record", async () => {
    const slug = await publish(studio);
    await studio.send("author", `/recipes/${slug}/withdrawal`, { form: { why: "Wrong powder." } });
    expect(
      (
        await studio.send("author", `/recipes/${slug}/withdrawal/end`, {
          form: { why: "It was the right one." },
        })
      ).status,
    ).toBe(303);
    expect((await read("visitor", slug)).standing.is).toBe("draft");
  });
});

describe("the list", () => {
  it("is one page after another without a double or a gap", async () => {
    const slugs: string[] = [];
    let after: string | null = "";
    while (after !== null) {
      const page: { items: { slug: string }[]; next: string | null } = await studio.json(
        "manager",
        `/recipes${after && `?after=${after}`}`,
      );
      slugs.push(...page.items.map((item) => item.slug));
      after = page.next;
    }
    expect(slugs.length).toBeGreaterThan(50);
    expect(new Set(slugs).size).toBe(slugs.length);
  });

  it("finds by cone, use, and a material's name", async () => {
    const slug = await publish(studio, {
      different: { cones: { low: "04", high: "1" } },
      lines: [
        ["barium-carbonate", "30"],
        ["quartz", "70"],
      ],
    });
    const found = async (query: string) =>
      (await studio.json<{ items: { slug: string }[] }>("visitor", `/recipes?${query}`)).items.map(
        (item) => item.slug,
      );
    expect(await found("cone=02")).toEqual([slug]);
    expect(await found("cone=4&q=barium")).toEqual([]);
    expect(await found("q=Barium%20carb")).toEqual([slug]);
    expect(await found("use=functional&q=barium")).toEqual([]);
  });

  it.each(["/recipes/%00", "/recipes?q=%00", "/materials/a%00b"])(
    "has nothing at %s",
    async (path) => {
      expect((await studio.send("visitor", path)).status).toBe(404);
    },
  );

  it("refuses a filter that it cannot read, and a cursor that is none", async () => {
    expect(
      (await studio.send("visitor", "/recipes?cone=4.0", { accept: "application/json" })).status,
    ).toBe(422);
    expect(
      (await studio.send("visitor", "/recipes?after=nonsense", { accept: "application/json" }))
        .status,
    ).toBe(422);
  });
});

describe("the form", () => {
  const form = (different: Record<string, string> = {}) => ({
    name: "Typed by hand",
    shownTo: "public",
    "revision.use": "decorative",
    "revision.cones.low": "5",
    "revision.cones.high": "6",
    "revision.atmosphere": "oxidation",
    "revision.lines.0.part": "base",
    "revision.lines.0.material": "Potash feldspar",
    "revision.lines.0.amount": "60",
    "revision.lines.1.part": "base",
    "revision.lines.1.material": "",
    "revision.lines.1.amount": "",
    "revision.lines.2.part": "base",
    "revision.lines.2.material": "Whiting",
    "revision.lines.2.amount": "20",
    ...different,
  });

  it("publishes what is typed, blank rows left out", async () => {
    const answer = await studio.send("author", "/recipes", { form: form() });
    expect(answer.status).toBe(303);
    const { head } = await read("visitor", "typed-by-hand");
    expect(head.lines.map(({ material, amount }) => `${material} ${amount}`)).toEqual([
      "potash-feldspar 60",
      "whiting 20",
    ]);
  });

  it("stores nothing where a button asks for a change, and shows the chemistry", async () => {
    const answer = await studio.send("author", "/recipes", {
      form: form({ name: "Not yet", change: "to-100" }),
    });
    expect(answer.status).toBe(200);
    const page = await answer.text();
    expect(page).toContain('value="75"');
    expect(page).toContain("Not yet");
    expect((await studio.send("author", "/recipes/not-yet")).status).toBe(404);
  });

  it("reads pasted text into rows and asks about a name it is not sure of", async () => {
    const pasted = "Potash feldspar 40\nWhitin 20\n+ Red iron oxide 2\nwhat is this";
    const page = await (
      await studio.send("author", "/recipes", {
        form: { ...form({ change: "read-text" }), pasted },
      })
    ).text();
    expect(page).toContain("Row 4:");
    expect(page).toContain("choose-3-whiting");
    expect(page).toContain('value="Red iron oxide"');
  });

  it("comes back with what was typed and the fault beside its field", async () => {
    const answer = await studio.send("author", "/recipes", {
      form: form({ name: "", "revision.lines.2.amount": "a lot" }),
    });
    expect(answer.status).toBe(422);
    const page = await answer.text();
    expect(page).toContain('value="a lot"');
    expect(page).toContain('id="field-revision.lines.1.amount-fault"');
    expect(page).toContain('id="field-name-fault"');
  });

  it("creates once on a double tap, and refuses the same key with something else", async () => {
    const tapped = form({ name: "Tapped twice", idempotencyKey: "tap-1" });
    const both = await Promise.all([
      studio.send("author", "/recipes", { form: tapped }),
      studio.send("author", "/recipes", { form: tapped }),
    ]);
    expect(both.map(({ status }) => status)).toEqual([303, 303]);
    expect(both.map(({ headers }) => headers.get("location"))).toEqual([
      "/recipes/tapped-twice",
      "/recipes/tapped-twice",
    ]);
    const other = await studio.send("author", "/recipes", {
      form: { ...tapped, name: "Something else" },
    });
    expect(other.status).toBe(422);
    expect((await studio.send("author", "/recipes/something-else")).status).toBe(404);
  });

  it("is not taken from another site", async () => {
    const answer = await studio.send("author", "/recipes", {
      form: form({ name: "Forged" }),
      headers: { origin: "https://elsewhere.example" },
    });
    expect(answer.status).toBe(403);
    expect((await studio.send("author", "/recipes/forged")).status).toBe(404);
  });
});
