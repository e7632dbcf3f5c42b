import type { Person, World } from "./world.ts";

export type Step = (world: World) => Promise<unknown>;

const members: readonly Person[] = ["author", "other member"];
const everyone: readonly Person[] = ["author", "other member", "reviewer", "manager"];
const powders = ["potash-feldspar", "whiting", "quartz", "kaolin"];

const lines = (world: World) => {
  const base = powders.map((material) => ({
    part: "base",
    material,
    amount: world.amount(5, 40, world.pick([0, 2, 6])),
  }));
  return world.chance(0.5)
    ? [...base, { part: "addition", material: "red-iron-oxide", amount: world.amount(0.1, 8, 3) }]
    : base;
};

const revision = (world: World) => ({
  message: world.words(),
  lines: lines(world),
  use: world.pick(["decorative", "functional"]),
  cones: { low: "5", high: "6" },
  atmosphere: "oxidation",
  surface: world.pick(["gloss", "satin", "Mätt"]),
  about: world.words(),
});

const head = async (world: World, slug: string): Promise<number> => {
  const recipe = await world.studio.json<{ head: { number: number } | number }>(
    "manager",
    `/recipes/${slug}`,
  );
  return typeof recipe.head === "number" ? recipe.head : recipe.head.number;
};

export const librarySteps: Record<string, Step> = {
  material: async (world) => {
    const name = world.name("feldspar");
    const json = { name, kind: "mineral", formula: "Na2O·Al2O3·6SiO2", about: world.words() };
    const made = await world.post("manager", "/materials", json);
    if (made) world.made.materials.push(String(made.slug));
    return made;
  },
  analysis: async (world) => {
    const slug = world.pick([...world.made.materials, ...powders]);
    const oxides = {
      SiO2: { percent: world.amount(50, 70, 4), plusMinus: world.amount(0.1, 1) },
      Al2O3: { percent: world.amount(10, 25, 6) },
    };
    const json = { source: world.words(), measuredOn: "2026-02-03", oxides };
    return world.post(world.pick(everyone), `/materials/${slug}/analyses`, json);
  },
  "material name": (world) =>
    world.post("manager", `/materials/${world.pick(powders)}/names`, {
      name: world.name("flint"),
      region: "Saltmarsh",
      caution: world.words(),
    }),
  discontinuation: (world) =>
    world.put("manager", `/materials/${world.pick(world.made.materials)}/discontinuation`, {
      since: "2026-03-01",
      why: world.words(),
    }),
  "data sheet": (world) =>
    world.post("manager", `/materials/${world.pick(powders)}/data-sheets`, {
      signal: world.pick(["danger", "warning", "none"]),
      statements: [world.words().split("\n")[0], "Dust harms lungs."],
      source: "sheet 4, invented",
    }),
  gravity: (world) =>
    world.post("manager", `/materials/${world.pick(powders)}/gravities`, {
      gravity: world.amount(2, 4, 3),
      source: "measured",
    }),
  recipe: async (world) => {
    const shownTo = world.pick(["public", "public", "studio", "private"]);
    const json = { name: world.name("glaze"), shownTo, revision: revision(world) };
    const made = await world.post(world.pick(members), "/recipes", json);
    if (made) world.made.recipes.push(String(made.slug));
    return made;
  },
  revision: async (world) => {
    const slug = world.pick(world.made.recipes);
    const json = { ...revision(world), basedOn: await head(world, slug) };
    return world.post(world.pick(members), `/recipes/${slug}/revisions`, json);
  },
  fork: async (world) => {
    const of = world.pick(world.made.recipes);
    const made = await world.post("other member", `/recipes/${of}/forks`, {
      name: world.name("fork"),
    });
    if (!made) return undefined;
    const slug = String(made.slug);
    await world.post("other member", `/recipes/${slug}/revisions`, {
      ...revision(world),
      basedOn: 1,
    });
    world.made.forks.push({ slug, of });
    world.made.recipes.push(slug);
    return made;
  },
  offer: async (world) => {
    const { slug, of } = world.pick(world.made.forks);
    const json = { from: `${slug}@2`, why: world.words() };
    const offer = await world.post("other member", `/recipes/${of}/offers`, json);
    if (!offer) return undefined;
    await world.put("manager", `/offers/${offer.id}/answer`, { accept: false, why: world.words() });
    return offer;
  },
  withdrawal: async (world) => {
    const slug = world.pick(world.made.recipes);
    const json = { why: world.words(), forSafety: world.chance(0.3) };
    const withdrawn = await world.put("manager", `/recipes/${slug}/withdrawal`, json);
    if (withdrawn && world.chance(0.7))
      await world.post("manager", `/recipes/${slug}/withdrawal/end`, { why: "Tried again." });
    return withdrawn;
  },
  visibility: (world) =>
    world.put("manager", `/recipes/${world.pick(world.made.recipes)}/visibility`, {
      shownTo: world.pick(["public", "studio", "private"]),
    }),
  note: async (world) => {
    const slug = world.pick(world.made.recipes);
    const anchor = world.pick([{ kind: "whole" }, { kind: "oxide", key: "SiO2" }]);
    const blocking = world.chance(0.3);
    const json = { text: `${world.words()} @Tam Pellew`, anchor, blocking };
    const note = await world.post(world.pick(everyone), `/recipes/${slug}/notes`, json);
    if (note) (blocking ? world.made.objections : world.made.notes).push(String(note.id));
    return note;
  },
  reply: (world) =>
    world.post(world.pick(everyone), `/notes/${world.pick(world.made.notes)}/replies`, {
      text: world.words(),
    }),
  "note edit": async (world) => {
    const id = world.pick(world.made.notes);
    for (const who of everyone)
      if (await world.put(who, `/notes/${id}/text`, { text: `${world.words()} again` }))
        return true;
    return undefined;
  },
  closing: (world) =>
    world.put("manager", `/notes/${world.pick(world.made.objections)}/answer`, {
      overrule: true,
      why: world.words(),
    }),
  "note removal": (world) =>
    world.put("manager", `/notes/${world.pick(world.made.notes)}/removal`, { why: "Asked for." }),
  "review request": (world) =>
    world.post("manager", `/recipes/${world.pick(world.made.recipes)}/review-requests`, {}),
  review: (world) =>
    world.post(
      world.pick(["reviewer", "manager"] as const),
      `/recipes/${world.pick(world.made.recipes)}/reviews`,
      {
        verdict: world.pick(["approve", "approve", "object", "remark"]),
        for: "decorative",
        reasons: world.words(),
      },
    ),
  "share link": async (world) => {
    const slug = world.pick(world.made.recipes);
    const link = await world.post("manager", `/recipes/${slug}/revisions/1/links`, {});
    if (link && world.chance(0.5)) await world.post("manager", `/links/${link.id}/end`, {});
    return link;
  },
  handout: (world) =>
    world.post("manager", `/recipes/${world.pick(world.made.recipes)}/handouts`, {}),
  family: (world) =>
    world.post(world.pick(members), "/families", {
      name: world.name("family"),
      recipes: [...new Set([world.pick(world.made.recipes), world.pick(world.made.recipes)])],
      intro: world.words(),
    }),
};
