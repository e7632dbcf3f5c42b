import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { publish, revision, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("fifty revisions at once", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());

  it("leave exactly one each round, the others told of it, and no gap in the numbers", async () => {
    const slug = await publish(studio);
    const rounds = 3;
    for (let head = 1; head <= rounds; head += 1) {
      const answers = await Promise.all(
        Array.from({ length: 50 }, (_, each) =>
          studio.send(each % 2 === 0 ? "author" : "manager", `/recipes/${slug}/revisions`, {
            json: { ...revision({ message: `try ${each}` }), basedOn: head },
          }),
        ),
      );
      const statuses = answers.map(({ status }) => status);
      expect(statuses.filter((status) => status === 201)).toHaveLength(1);
      expect(statuses.filter((status) => status === 409)).toHaveLength(49);
      const lost = answers.find(({ status }) => status === 409);
      expect(await lost?.json()).toMatchObject({
        type: "/problems/stale",
        head: { number: head + 1 },
      });
    }
    const { items } = await studio.json<{ items: { number: number; basedOn: number | null }[] }>(
      "author",
      `/recipes/${slug}/revisions`,
    );
    expect(items.map(({ number }) => number)).toEqual([4, 3, 2, 1]);
    expect(items.map(({ basedOn }) => basedOn)).toEqual([3, 2, 1, null]);
  });
});
