import type { mixJson } from "../src/routes/mix-json.ts";
import { publish } from "./shelf.ts";
import type { TestStudio, Who } from "./studio.ts";

export type Mix = ReturnType<typeof mixJson> & {
  detail?: string;
  errors?: { path: string; says: string }[];
  mix?: Mix;
};

let keys = 0;

/** A key that no other tick of this run has. */
export const newKey = (): string => {
  keys += 1;
  return `key-of-a-test-${keys}`;
};

/** A bucket of a revision; a test bucket unless that is approved. */
export async function addBucket(
  studio: TestStudio,
  recipe?: string,
  given: { approved?: boolean } = {},
): Promise<string> {
  const slug = recipe ?? (await publish(studio));
  const filled = { revision: 1, name: "Tall grey bucket", litres: "20" };
  const json = { recipe: slug, ...filled, test: !given.approved };
  const answer = await studio.send("manager", "/buckets", { json });
  return ((await answer.json()) as { id: string }).id;
}

/** Opens a mix of a bucket of its own: 400 g feldspar, 250 quartz, 200 whiting, 150 kaolin, 20 iron. */
export async function openMix(studio: TestStudio, recipe?: string): Promise<Mix> {
  const bucket = await addBucket(studio, recipe);
  const json = { grams: "1000", scaleGrams: "1" };
  const answer = await studio.send("manager", `/buckets/${bucket}/mixes`, { json });
  if (answer.status !== 201) throw new Error(await answer.text());
  return (await answer.json()) as Mix;
}

/** Buys a lot of a material. @returns its id. */
export async function buy(
  studio: TestStudio,
  material: string,
  given: { grams?: string; mark?: string; analysis?: string } = {},
): Promise<string> {
  await studio.send("manager", "/suppliers", { json: { name: "Quayside Ceramics" } });
  const pack = { packGrams: "5000", packPrice: "9.50", currency: "GBP", grams: "5000" };
  const json = { supplier: "quayside-ceramics", ...pack, ...given };
  const answer = await studio.send("manager", `/materials/${material}/lots`, { json });
  if (answer.status !== 201) throw new Error(await answer.text());
  return ((await answer.json()) as { id: string }).id;
}

type Tick = { n: number; grams: string; lot?: string; key?: string; adds?: boolean };

/** Says what went in of a line. */
export async function tick(studio: TestStudio, who: Who, mix: string, given: Tick) {
  const { n, key = newKey(), ...rest } = given;
  const answer = await studio.send(who, `/mixes/${mix}/lines/${n}`, {
    method: "PUT",
    json: { key, ...rest },
  });
  return { status: answer.status, mix: (await answer.json()) as Mix, key };
}

export async function undo(
  studio: TestStudio,
  who: Who,
  mix: string,
  { n, key }: { n: number; key?: string },
) {
  const answer = await studio.send(who, `/mixes/${mix}/lines/${n}`, {
    method: "DELETE",
    json: { ...(key && { key }) },
  });
  return { status: answer.status, mix: (await answer.json()) as Mix };
}

export async function end(
  studio: TestStudio,
  who: Who,
  mix: string,
  how: { finish: object } | { "giving-up": object },
) {
  const [[word, json]] = Object.entries(how) as [[string, object]];
  const answer = await studio.send(who, `/mixes/${mix}/${word}`, { method: "PUT", json });
  return { status: answer.status, mix: (await answer.json()) as Mix };
}

export const readMix = (studio: TestStudio, id: string): Promise<Mix> =>
  studio.json<Mix>("author", `/mixes/${id}`);

/** Weighs every line as the sheet has it, out of bags that nobody could tell. */
export async function weighAll(studio: TestStudio, mix: Mix): Promise<void> {
  for (const { n, grams } of mix.lines) await tick(studio, "author", mix.id, { n, grams });
}
