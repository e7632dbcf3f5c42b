import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Answered } from "../../views/start/types.ts";
import { halves, pictureForm } from "../camera.ts";
import { fireTile } from "../evidence.ts";
import { putBody } from "../fired.ts";
import { approveAgain, openBucket } from "../opened.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio, type Who } from "../studio.ts";
import { stand } from "../waiting.ts";

type Told = Omit<Answered, "leftOut"> & {
  leftOut: { why: string; recipes: number; says: string }[];
};

describe("the front desk", () => {
  let studio: TestStudio;
  let slug: string;
  let bucket: string;
  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(async () => {
    expect(studio.logged).toEqual([]);
    await studio.close();
  });

  let melts = 0;
  /** Of a melt of its own, so that no other test unsettles it. */
  const glaze = (different: Record<string, unknown> = {}, shownTo = "public") => {
    melts += 1;
    return publish(studio, {
      ...{ different, shownTo },
      lines: [
        ["potash-feldspar", `41.${melts}`],
        ["whiting", "20"],
        ["quartz", "25"],
      ],
    });
  };
  const notMixed = "Small white bucket: Not mixed yet: no mix of it was finished.";
  const ask = (who: Who, query: string) => studio.json<Told>(who, `/start?${query}`);
  const page = async (who: Who, query: string) =>
    (await studio.send(who, `/start?${query}`)).text();
  const slugs = (glazes: readonly { slug: string }[] | null) =>
    glazes?.map((each) => each.slug) ?? null;

  it("asks what is made, and shows that nothing is approved yet", async () => {
    const { makings } = await studio.json<{ makings: { key: string }[] }>("visitor", "/start");
    const asked = await page("visitor", "");
    for (const { key } of makings) expect(asked).toContain(`href="/start?making=${key}"`);
    const told = await ask("author", "making=mug-or-bowl");
    expect(told).toMatchObject({ inStock: [], approved: [], leftOut: [], body: null });
    const empty = await page("author", "making=mug-or-bowl");
    expect(empty).toContain("No open bucket may be used for this at that cone now.");
    expect(empty).toContain("No other glaze is approved for this at that cone.");
  });

  it("is offered on the way in", async () => {
    expect(await page("visitor", "")).toContain("What are you making?");
    expect(await (await studio.send("visitor", "/recipes")).text()).toContain('href="/start"');
  });

  it("shows what is open and approved as functional, with its bucket", async () => {
    ({ slug, id: bucket } = await openBucket(studio));
    const another = { recipe: slug, revision: 1, name: "Small white bucket", litres: "5" };
    await studio.send("manager", "/buckets", { json: { ...another, test: false } });
    await approveAgain(studio, slug);
    const told = await ask("author", "making=mug-or-bowl");
    expect(told).toMatchObject({ cone: "6", approved: [], leftOut: [] });
    expect(told.inStock).toMatchObject([
      { slug, number: 1, for: "functional", buckets: [{ id: bucket, litres: "20" }] },
    ]);
    expect(told.inStock?.[0]?.notNow).toEqual([notMixed]);
    const shown = await page("author", "making=mug-or-bowl");
    expect(shown).toContain(`20 l in Tall grey bucket. Not ${notMixed}`);
  });

  it("tells a visitor what is approved and public, and nothing of buckets", async () => {
    const hidden = await glaze({ use: "functional" }, "studio");
    await stand(studio, hidden, { is: "approved", for: "functional" });
    const told = await ask("visitor", "making=mug-or-bowl");
    expect([told.inStock, slugs(told.approved), told.leftOut]).toEqual([null, [slug], []]);
    expect(told.approved[0]).toMatchObject({ buckets: [], notNow: [] });
    const shown = await page("visitor", "making=mug-or-bowl");
    expect(shown).not.toContain("Tall grey bucket");
    expect(shown).toContain("Sign in</a> to see which of them are in a bucket");
    expect(slugs((await ask("author", "making=mug-or-bowl")).approved)).toEqual([hidden]);
    await stand(studio, hidden, { is: "withdrawn" });
  });

  it("says why each of the others is left out, and counts each once", async () => {
    const decorative = await glaze({ use: "decorative" });
    await stand(studio, decorative, { is: "approved", for: "decorative" });
    const meantForMore = await glaze({ use: "functional" });
    await stand(studio, meantForMore, { is: "approved", for: "decorative" });
    for (const is of ["draft", "draft", "in review", "needs another look"] as const)
      await stand(studio, await glaze({ use: "functional" }), { is });
    const cooler = await glaze({ use: "functional", cones: { low: "04", high: "04" } });
    await stand(studio, cooler, { is: "approved", for: "functional" });

    const { leftOut, inStock } = await ask("author", "making=mug-or-bowl&cone=6");
    expect(slugs(inStock)).toEqual([slug]);
    expect(leftOut.map(({ says }) => says)).toEqual([
      "2 are decorative only: not where food, drink or lips touch.",
      "2 are drafts: nobody has reviewed them.",
      "1 is in review: nobody has approved it yet.",
      "1 needs another look: what its approval rested on has changed.",
      "1 is for another cone.",
      "1 was withdrawn.",
    ]);
    expect(await page("author", "making=jar-or-pet-bowl&cone=6")).not.toContain(decorative);

    const planter = await ask("author", "making=planter-or-vase&cone=6");
    expect(slugs(planter.approved)?.toSorted()).toEqual([decorative, meantForMore].toSorted());
    expect(planter.leftOut.map(({ why }) => why)).not.toContain("decorative only");
    const shown = await page("author", "making=planter-or-vase&cone=6");
    expect(shown).toContain("within 20 mm of it");
    expect(shown).toContain("Decorative only</strong>");
    expect(slugs((await ask("author", "making=tile&cone=04")).approved)).toEqual([cooler]);
  });

  it("leads to the revision that is approved, not to a newer draft", async () => {
    const older = await glaze({ use: "functional" });
    await stand(studio, older, { is: "approved", for: "functional" });
    const json = {
      basedOn: 1,
      message: "a little more",
      lines: [{ part: "base", material: "quartz", amount: "100" }],
      ...{ use: "functional", cones: { low: "6", high: "6" }, atmosphere: "oxidation" },
      ...{ surface: "gloss", about: "" },
    };
    const answer = await studio.send("author", `/recipes/${older}/revisions`, { json });
    expect(answer.status).toBe(201);
    const { approved } = await ask("author", "making=mug-or-bowl");
    expect(approved.map((each) => [each.slug, each.number])).toEqual([[older, 1]]);
    expect(await page("author", "making=mug-or-bowl")).toContain(
      `href="/recipes/${older}/revisions/1"`,
    );
  });

  it("shows first what has a picture on the body that was asked for", async () => {
    const other = await putBody(studio, "Heron porcelain");
    const mine = await glaze({ use: "functional" });
    const tile = await fireTile(studio, mine);
    const photo = await halves(80, 60).jpeg().toBuffer();
    await studio.send("author", `/tiles/${tile}/photos`, { form: pictureForm(photo) });
    await stand(studio, mine, { is: "approved", for: "functional" });

    const told = await ask("author", "making=mug-or-bowl");
    expect(told.body).toMatchObject({ slug: "loft-stoneware", fits: true });
    expect(told.approved[0]).toMatchObject({ slug: mine, tile: { onBody: true } });
    expect(told.approved[0]?.tile?.picture).not.toBeNull();
    await fireTile(studio, mine, { atmosphere: "reduction", firing: undefined });
    await stand(studio, mine, { is: "approved", for: "functional" });
    const same = (await ask("author", "making=mug-or-bowl")).approved[0];
    expect([same?.tile?.id, same?.tested]).toEqual([tile, ["6"]]);
    const elsewhere = await ask("author", `making=mug-or-bowl&body=${other}`);
    expect(elsewhere.approved.map(({ tile }) => tile?.onBody ?? false)).not.toContain(true);
    expect(await page("author", `making=mug-or-bowl&body=${other}`)).toContain(
      "None on your body: fire one first.",
    );
    expect(await page("author", `making=mug-or-bowl&body=${other}&cone=04`)).toContain(
      "Heron porcelain is for cones 5 to 7, and cone 04 is not among them",
    );
  });

  it("says why an approved glaze's bucket is not to be used", async () => {
    const state = { method: "PUT", json: { is: "hold", why: "Lumpy." } };
    await studio.send("manager", `/buckets/${bucket}/state`, state);
    await approveAgain(studio, slug);
    const { inStock, approved } = await ask("author", "making=mug-or-bowl");
    expect(inStock).toEqual([]);
    expect(approved.find((each) => each.slug === slug)).toMatchObject({
      buckets: [],
      notNow: [notMixed, "Tall grey bucket: This bucket is on hold: do not use it."],
    });
  });

  it.each([
    ["making=spoon", "making"],
    ["making=tile&cone=006", "cone"],
    ["making=tile&body=nowhere", "body"],
  ])("refuses %s", async (query, path) => {
    const sent = { accept: "application/json" };
    const answer = await studio.send("visitor", `/start?${query}`, sent);
    const { errors } = (await answer.json()) as { errors: { path: string }[] };
    expect([answer.status, errors.map((each) => each.path)]).toEqual([422, [path]]);
  });
});
