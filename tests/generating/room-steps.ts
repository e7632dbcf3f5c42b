import type { Step } from "./library-steps.ts";

const powders = ["potash-feldspar", "whiting", "quartz", "kaolin"];

/** Buckets, powders on the shelf, people. */
export const roomSteps: Record<string, Step> = {
  lot: async (world) => {
    await world.post("manager", "/suppliers", { name: "Quayside Ceramics" });
    const material = world.pick(powders);
    const made = await world.post("manager", `/materials/${material}/lots`, {
      supplier: "quayside-ceramics",
      packGrams: "5000",
      packPrice: world.amount(4, 20, 4),
      currency: "GBP",
      grams: "25000.5",
      mark: world.words().split("\n")[0]?.slice(0, 20),
      ...(world.chance(0.5) ? { bestBefore: "2028-01-31" } : {}),
    });
    if (made) world.made.lots.push({ id: String(made.id), material });
    return made;
  },
  pack: (world) =>
    world.post("manager", "/suppliers/quayside-ceramics/packs", {
      material: world.pick(powders),
      packGrams: "5000",
      packPrice: world.amount(4, 20, 2),
      currency: "GBP",
    }),
  terms: (world) =>
    world.put("manager", "/suppliers/quayside-ceramics/terms", {
      carriage: world.amount(2, 9),
      freeFrom: "60",
      currency: "GBP",
    }),
  "stock count": (world) =>
    world.post("author", `/lots/${world.pick(world.made.lots).id}/counts`, {
      grams: world.amount(0, 24000, 3),
      why: world.words(),
    }),
  "stock line": (world) =>
    world.put("manager", `/materials/${world.pick(powders)}/stock-line`, {
      grams: world.amount(100, 900),
    }),
  plan: async (world) => {
    const made = await world.post("manager", "/plans", {
      recipe: world.pick(world.made.recipes),
      grams: "1000",
      note: world.words(),
    });
    if (made && world.chance(0.5))
      await world.put("manager", `/plans/${made.id}/end`, { is: "dropped" });
    return made;
  },
  bucket: async (world) => {
    const slug = world.pick(world.made.recipes);
    const made = await world.post("manager", "/buckets", {
      recipe: slug,
      revision: 1,
      name: world.name("bucket"),
      litres: world.amount(5, 40, 3),
      test: true,
    });
    if (made) world.made.buckets.push({ id: String(made.id), slug });
    return made;
  },
  mix: async (world) => {
    const { id } = world.pick(world.made.buckets);
    const mix = await world.post("manager", `/buckets/${id}/mixes`, {
      grams: world.amount(200, 3000, 0),
      scaleGrams: "0.1",
    });
    if (!mix) return undefined;
    const lines = mix.lines as { n: number; grams: string; material: { slug?: string } }[];
    const key = () => `key ${world.amount(0, 1e9, 0)}`;
    for (const { n, grams, material } of lines) {
      const lot = world.made.lots.find((one) => one.material === material.slug)?.id ?? "none";
      await world.put("author", `/mixes/${mix.id}/lines/${n}`, { grams, lot, key: key() });
    }
    const again = lines[0];
    if (again && world.chance(0.3)) {
      await world.post("author", `/mixes/${mix.id}/lines/${again.n}/undo`, {});
      await world.put("author", `/mixes/${mix.id}/lines/${again.n}`, {
        grams: again.grams,
        lot: "none",
        key: key(),
      });
    }
    return world.chance(0.7)
      ? world.put("manager", `/mixes/${mix.id}/finish`, { waterGrams: world.amount(100, 900, 1) })
      : world.put("manager", `/mixes/${mix.id}/giving-up`, { why: world.words() });
  },
  reading: (world) =>
    world.post("author", `/buckets/${world.pick(world.made.buckets).id}/readings`, {
      specificGravity: world.amount(1.3, 1.6, 3),
      litres: world.amount(1, 20, 3),
      stirred: true,
      note: world.words(),
    }),
  addition: (world) =>
    world.post("author", `/buckets/${world.pick(world.made.buckets).id}/additions`, {
      what: "flocculant",
      named: "Epsom salts",
      amount: world.amount(1, 9, 3),
      unit: "g",
    }),
  directions: (world) =>
    world.put("manager", `/buckets/${world.pick(world.made.buckets).id}/directions`, {
      gravity: { low: "1.43", high: "1.47" },
      dipSeconds: "2.5",
      coats: 1,
      catchDish: world.chance(0.5),
      sieve: world.words().split("\n")[0],
    }),
  report: async (world) => {
    const { id } = world.pick(world.made.buckets);
    const report = await world.post("author", `/buckets/${id}/reports`, {
      trouble: "thin",
      note: world.words(),
    });
    if (report && world.chance(0.5))
      await world.put("manager", `/bucket-reports/${report.id}/answer`, { done: "Thickened." });
    return report;
  },
  "bucket state": (world) =>
    world.put("manager", `/buckets/${world.pick(world.made.buckets).id}/state`, {
      is: world.pick(["hold", "empty"]),
      why: world.words(),
    }),
  use: (world) =>
    world.post("author", `/buckets/${world.pick(world.made.buckets).id}/uses`, {
      what: world.words().split("\n")[0],
    }),
  recall: async (world) => {
    if (world.chance(0.6)) return undefined;
    const recall = await world.post("reviewer", "/recalls", {
      lot: world.pick(world.made.lots).id,
      why: world.words(),
    });
    if (recall && world.chance(0.5))
      await world.put("manager", `/recalls/${recall.id}/closing`, { done: "Thrown away." });
    return recall;
  },
  wish: (world) =>
    world.put("author", "/account/mail", { mail: world.pick(["off", "at once", "daily"]) }),
  feed: (world) => world.post("author", "/account/feed", {}),
  "studio set": (world) =>
    world.put("manager", "/studio", {
      name: "Saltmarsh Lane Studio",
      showsPublic: true,
      scaleGrams: world.pick(["0.1", "0.01", "1"]),
      approvalMonths: world.pick([6, 12, 24]),
      jurisdictions: world.pick([["eu"], [], ["eu", "us-fda"]]),
    }),
  role: async (world) => {
    const role = world.pick(["member", "reviewer"]);
    return world.post("manager", `/people/${world.studio.ids["other member"]}`, { role });
  },
};
