import { halves, pictureForm } from "../camera.ts";
import type { Step } from "./library-steps.ts";
import type { World } from "./world.ts";

const body = (world: World) => ({
  cones: { low: "5", high: "7" },
  absorption: { percent: world.amount(0.5, 5, 3), source: world.words() },
  about: world.words(),
});

const picture = async (world: World, alt: string) => {
  const bytes = await halves(60, 40, Math.floor(world.random() * 200))
    .png()
    .toBuffer();
  return pictureForm(bytes, "tile.png", { alt });
};

export const fireSteps: Record<string, Step> = {
  body: async (world) => {
    const made = await world.post("author", "/bodies", {
      name: world.name("clay"),
      ...body(world),
    });
    if (made) world.made.bodies.push(String(made.slug));
    return made;
  },
  "body sheet": (world) =>
    world.post("manager", `/bodies/${world.pick(world.made.bodies)}/sheets`, body(world)),
  kiln: async (world) => {
    const made = await world.post("author", "/kilns", {
      name: world.name("kiln"),
      about: world.words(),
    });
    if (made) world.made.kilns.push(String(made.slug));
    return made;
  },
  firing: async (world) => {
    const made = await world.post("author", "/firings", {
      kiln: world.pick(world.made.kilns),
      kind: "oxidation",
      cone: "6",
      startedAt: "2026-09-01T08:00:00Z",
      programme: [
        { celsiusPerHour: 60, toCelsius: 600 },
        { celsiusPerHour: 108.5, toCelsius: 1222, holdMinutes: 10 },
      ],
      witness: [{ cone: "6", bendDegrees: Math.floor(world.random() * 120), place: "shelf 2" }],
      remark: world.words(),
    });
    if (made) world.made.firings.push(String(made.id));
    return made;
  },
  "firing readings": (world) => {
    const readings = [0, 60, 120, 500, 700].map((minute) => [
      minute,
      20 + minute * 1.7 + world.random(),
    ]);
    return world.post("author", `/firings/${world.pick(world.made.firings)}/readings`, readings);
  },
  "firing cost": (world) =>
    world.post("author", `/firings/${world.pick(world.made.firings)}/costs`, {
      energy: "electricity",
      amount: world.amount(10, 90, 3),
      unit: "kWh",
      price: world.amount(3, 30, 4),
      currency: "GBP",
    }),
  "firing withdrawal": (world) =>
    world.chance(0.3)
      ? world.put("manager", `/firings/${world.pick(world.made.firings)}/withdrawal`, {
          why: world.words(),
        })
      : Promise.resolve(undefined),
  tile: async (world) => {
    const slug = world.pick(world.made.recipes);
    const made = await world.post(
      world.pick(["author", "other member"] as const),
      `/recipes/${slug}/tiles`,
      {
        revision: 1,
        cone: "6",
        ...(world.chance(0.6) ? { firing: world.pick(world.made.firings) } : {}),
        ...(world.chance(0.6) ? { body: world.pick(world.made.bodies) } : {}),
        thicknessMm: world.amount(0.3, 2),
        defects: world.chance(0.3) ? ["crazing", "pinholing"] : [],
        remark: world.words(),
      },
    );
    if (made) world.made.tiles.push({ id: String(made.id), slug });
    return made;
  },
  photo: async (world) => {
    const { id } = world.pick(world.made.tiles);
    const made = await world.form(
      "manager",
      `/tiles/${id}/photos`,
      await picture(world, world.words().split("\n")[0] ?? ""),
    );
    const own =
      made ?? (await world.form("author", `/tiles/${id}/photos`, await picture(world, "a tile")));
    if (own) world.made.pictures.push(String(own.sha256));
    return own;
  },
  "photo removal": (world) =>
    world.chance(0.4)
      ? world.put("manager", `/photos/${world.pick(world.made.pictures)}/removal`, {
          why: "Asked for.",
        })
      : Promise.resolve(undefined),
  colour: (world) =>
    world.post("author", `/tiles/${world.pick(world.made.tiles).id}/colours`, {
      from: "instrument",
      lab: [world.random() * 100, world.random() * 20 - 10, world.random() * 20 - 10],
    }),
  "tile withdrawal": (world) =>
    world.chance(0.3)
      ? world.put("manager", `/tiles/${world.pick(world.made.tiles).id}/withdrawal`, {
          why: world.words(),
        })
      : Promise.resolve(undefined),
  test: async (world) => {
    const { id, slug } = world.pick(world.made.tiles);
    const made = await world.post("author", `/recipes/${slug}/tests`, {
      revision: 1,
      tile: id,
      kind: world.pick(["acid", "alkali", "dishwasher"]),
      method: world.words(),
      outcome: world.pick(["passed", "unclear", "failed"]),
    });
    if (made) world.made.tests.push(String(made.id));
    return made;
  },
  "leach test": async (world) => {
    const { id, slug } = world.pick(world.made.tiles);
    const made = await world.post("author", `/recipes/${slug}/tests`, {
      revision: 1,
      tile: id,
      kind: "leach",
      method: "EN 1388-1",
      laboratory: "Quay Laboratory",
      outcome: "passed",
      results: [
        {
          element: "Pb",
          qualifier: "<",
          value: world.amount(0.001, 0.01, 6),
          unit: "mg/l",
          detectionLimit: "0.001",
        },
      ],
    });
    if (!made) return undefined;
    const form = new FormData();
    const pdf = Buffer.from(
      `%PDF-1.7\n1 0 obj\n<</Says (${world.amount(0, 3, 0)})>>\nendobj\ntrailer\n<<>>\n%%EOF\n`,
    );
    form.set("report", new File([new Uint8Array(pdf)], "report.pdf", { type: "application/pdf" }));
    return world.form("author", `/tests/${made.id}/report`, form);
  },
  "test withdrawal": (world) =>
    world.put("manager", `/tests/${world.pick(world.made.tests)}/withdrawal`, {
      why: world.words(),
    }),
  pair: (world) =>
    world.post("author", "/pairs", {
      over: `${world.pick(world.made.recipes)}@1`,
      under: `${world.pick(world.made.recipes)}@1`,
      about: world.words(),
    }),
  trial: async (world) => {
    const made = await world.post("author", "/trials", {
      kind: "ladder",
      base: { lines: [{ part: "base", material: "quartz", amount: "1" }] },
      addition: "red-iron-oxide",
      to: world.amount(2, 8),
      steps: 3,
      name: world.name("trial"),
      about: world.words(),
    });
    if (made) world.made.trials.push(String(made.id));
    return made;
  },
  "trial result": async (world) => {
    const path = `/trials/${world.pick(world.made.trials)}/points/2/results`;
    const made = await world.post("author", path, {
      surface: "gloss",
      cone: "6",
      defects: ["crawling"],
      remark: world.words(),
    });
    if (!made) return undefined;
    world.made.results.push(String(made.id));
    await world.form(
      "author",
      `/trials/results/${made.id}/photos`,
      await picture(world, "point 2"),
    );
    if (world.chance(0.3))
      await world.put("manager", `/trials/results/${made.id}/withdrawal`, { why: "Mixed up." });
    return made;
  },
  "trial recipe": (world) =>
    world.post("author", `/trials/${world.pick(world.made.trials)}/points/1/recipe`, {
      name: world.name("point"),
      cone: "6",
    }),
};
