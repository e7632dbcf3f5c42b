import type { TestStudio, Who } from "./studio.ts";

/** A short shelf by formula, as the manager would put it there through the front door. */
const powders: Record<string, string> = {
  "Potash feldspar": "K2O·Al2O3·6SiO2",
  Whiting: "CaCO3",
  Quartz: "SiO2",
  Kaolin: "Al2O3·2SiO2·2H2O",
  "Red iron oxide": "Fe2O3",
  "Barium carbonate": "BaCO3",
};

/** Puts the powders on the shelf of a test studio, and one stain that has no analysis. */
export async function stockShelf(studio: TestStudio): Promise<void> {
  for (const [name, formula] of Object.entries(powders)) {
    const answer = await studio.send("manager", "/materials", {
      json: { name, kind: "mineral", formula },
    });
    if (answer.status !== 201) throw new Error(`${name}: ${answer.status} ${await answer.text()}`);
  }
  await studio.send("manager", "/materials", { json: { name: "Loft stain coral", kind: "stain" } });
}

type Lines = [material: string, amount: string, part?: "base" | "addition"][];

const slackWater: Lines = [
  ["potash-feldspar", "40"],
  ["whiting", "20"],
  ["quartz", "25"],
  ["kaolin", "15"],
  ["red-iron-oxide", "2", "addition"],
];

/** A revision as JSON, with what a test wants different. */
export const revision = (different: Record<string, unknown> = {}, lines: Lines = slackWater) => ({
  message: "first try",
  lines: lines.map(([material, amount, part = "base"]) => ({ part, material, amount })),
  use: "decorative",
  cones: { low: "6", high: "6" },
  atmosphere: "oxidation",
  surface: "gloss",
  about: "Dip for two seconds.",
  ...different,
});

let made = 0;

/** Publishes a recipe of its own for one test. @returns its slug. */
export async function publish(
  studio: TestStudio,
  given: {
    who?: Exclude<Who, "visitor">;
    shownTo?: string;
    different?: Record<string, unknown>;
    lines?: Lines;
  } = {},
): Promise<string> {
  made += 1;
  const { who = "author", shownTo = "public", different, lines } = given;
  const json = { name: `Slack Water ${made}`, shownTo, revision: revision(different, lines) };
  const answer = await studio.send(who, "/recipes", { json });
  const body = (await answer.json()) as { slug?: string };
  if (!body.slug) throw new Error(JSON.stringify(body));
  return body.slug;
}
