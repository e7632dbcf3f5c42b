import { Decimal } from "decimal.js";
import { v7 as uuidv7 } from "uuid";
import { expect, it } from "vitest";
import { buckets } from "../../src/db/schema/index.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio } from "../studio.ts";
import { at, putRow, revisionOf } from "../waiting.ts";

it("leaves out none that may hurt where more waits than is shown", async () => {
  const studio = await openTestStudio();
  await stockShelf(studio);
  const slug = await publish(studio);
  const { reviewer, author } = studio.ids;
  const { id: revisionId } = await revisionOf(studio, slug);
  const bucket = { id: uuidv7(), name: "Tall grey bucket", nameKey: "tall grey bucket" };
  const added = { revisionId, litres: new Decimal(20), addedBy: reviewer, addedAt: at };
  await studio.db.insert(buckets).values({ ...bucket, ...added });
  const later = (n: number) => new Date(at.getTime() + 1000 * n);
  for (let n = 1; n <= 201; n += 1)
    await putRow(studio, slug, { by: author, mentions: [reviewer], at: later(n) });

  type Told = { items: { kind: string; at: string }[]; of: number };
  const { items, of } = await studio.json<Told>("reviewer", "/waiting");
  expect([items.length, of]).toEqual([200, 202]);
  expect(items.map((item) => item.at)).toEqual([
    ...Array.from({ length: 199 }, (_, n) => later(201 - n).toISOString()),
    at.toISOString(),
  ]);
  expect(items.at(-1)?.kind).toBe("bucket");
  const page = await (await studio.send("reviewer", "/waiting")).text();
  expect(page).toContain("These are 200 of 202");
  await studio.close();
});
