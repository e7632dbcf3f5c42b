import type { Use } from "../src/chem/chemistry.ts";
import { fireTile } from "./evidence.ts";
import { addBucket, end, type Mix, weighAll } from "./mixes.ts";
import { publish } from "./shelf.ts";
import type { TestStudio } from "./studio.ts";
import { stand } from "./waiting.ts";

type Given = Omit<NonNullable<Parameters<typeof publish>[1]>, "different"> & { use?: Use };

/** A bucket that was mixed, proved and opened, of a recipe of its own that is approved. */
export async function openBucket(
  studio: TestStudio,
  { use = "functional", ...given }: Given = {},
): Promise<{ id: string; slug: string }> {
  const slug = await publish(studio, { ...given, different: { use } });
  const approve = () => stand(studio, slug, { is: "approved", for: use });
  await approve();
  const id = await addBucket(studio, slug, { approved: true });
  const opened = await studio.send("manager", `/buckets/${id}/mixes`, {
    json: { grams: "1000", scaleGrams: "1" },
  });
  const mix = (await opened.json()) as Mix;
  await weighAll(studio, mix);
  await end(studio, "manager", mix.id, { finish: { waterGrams: "800" } });
  await fireTile(studio, slug, { bucket: id });
  await approve();
  const open = { method: "PUT", json: { is: "open", why: "Proved." } };
  const answer = await studio.send("manager", `/buckets/${id}/state`, open);
  if (answer.status !== 200) throw new Error(await answer.text());
  await approve();
  return { id, slug };
}

/** Its recipe as approved as it was: what others do to the same melt unsettles it. */
export const approveAgain = (studio: TestStudio, slug: string, use: Use = "functional") =>
  stand(studio, slug, { is: "approved", for: use });
