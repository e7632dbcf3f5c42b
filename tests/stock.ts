import type { TestStudio, Who } from "./studio.ts";

type Lot = { leftGrams: string; moves: { because: string; grams: string; leftGrams: string }[] };

export const readLot = (studio: TestStudio, id: string): Promise<Lot> =>
  studio.json<Lot>("author", `/lots/${id}`);

export const count = (studio: TestStudio, who: Who, lot: string, grams: string) =>
  studio.send(who, `/lots/${lot}/counts`, { json: { grams } });

export const take = (studio: TestStudio, who: Who, lot: string, grams: string) =>
  studio.send(who, `/lots/${lot}/uses`, { json: { grams, why: "For trials." } });

/** Recalls a lot or a bucket. @returns the recall's id. */
export async function recall(
  studio: TestStudio,
  of: { lot: string } | { bucket: string },
): Promise<string> {
  const json = { ...of, why: "Lead was found in it." };
  const answer = await studio.send("reviewer", "/recalls", { json });
  if (answer.status !== 201) throw new Error(await answer.text());
  return ((await answer.json()) as { id: string }).id;
}
