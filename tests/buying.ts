import type { TestStudio } from "./studio.ts";

/** Puts a supplier on record with packs as `[material, grams, price]`, and terms where it has any. */
export async function addSupplier(
  studio: TestStudio,
  name: string,
  given: {
    packs?: [material: string, packGrams: string, packPrice: string][];
    currency?: string;
    terms?: Record<string, unknown>;
  } = {},
): Promise<string> {
  const { packs = [], currency = "GBP", terms } = given;
  const made = await studio.send("manager", "/suppliers", { json: { name } });
  const { slug } = (await made.json()) as { slug: string };
  for (const [material, packGrams, packPrice] of packs) {
    const json = { material, packGrams, packPrice, currency };
    const answer = await studio.send("manager", `/suppliers/${slug}/packs`, { json });
    if (answer.status !== 201) throw new Error(await answer.text());
  }
  if (terms) {
    const json = { currency, ...terms };
    const answer = await studio.send("manager", `/suppliers/${slug}/terms`, {
      method: "PUT",
      json,
    });
    if (answer.status !== 200) throw new Error(await answer.text());
  }
  return slug;
}

/** Plans a batch. @returns its id. */
export async function planBatch(
  studio: TestStudio,
  recipe: string,
  grams: string,
): Promise<string> {
  const answer = await studio.send("manager", "/plans", { json: { recipe, grams } });
  if (answer.status !== 201) throw new Error(await answer.text());
  return ((await answer.json()) as { id: string }).id;
}
