import type { Ask } from "./asking.ts";

type Row = { id: string; slug: string };
type Tile = { id: string; picture: { sha256: string } | null };

/** Records of the demo that pages are of, one of each kind. */
export type Found = Awaited<ReturnType<typeof findRecords>>;

/** Finds them as the manager; what the demo leaves out is put on record. */
export async function findRecords(ask: Ask) {
  const first = async <Of extends Row>(path: string, where: (one: Of) => boolean = () => true) => {
    const { items } = await ask<{ items: Of[] }>(path);
    const one = items.find(where);
    if (!one) throw new Error(`the demo has nothing of this kind at ${path}`);
    return one;
  };
  const idAt = async (path: string) => (await first(path)).id;
  const made = async (path: string, about: object) => (await ask<Row>(path, about)).id;
  const linked = async (path: string, about: object) => {
    const { pathname, search } = new URL((await ask<{ link: string }>(path, about)).link);
    return pathname + search;
  };

  const pictured = await first<Row & Tile>("/tiles", ({ picture }) => picture !== null);
  const { photos } = await ask<{ photos: Row[] }>(`/tiles/${pictured.id}`);
  const bucket = await first<Row & { standing: { is: string } }>(
    "/buckets",
    ({ standing }) => standing.is === "approved",
  );
  const { mixes } = await ask<{ mixes: Row[] }>(`/buckets/${bucket.id}`);
  const tub = { recipe: "slack-water", revision: 3, name: "The small tub", litres: "10" };
  const openMix = { grams: "2000", scaleGrams: "1" };
  const bag = { supplier: "quayside-ceramics", packGrams: "5000", packPrice: "9.50" };
  const lot = await made("/materials/quartz/lots", { ...bag, currency: "GBP", grams: "5000" });
  const { id: person } = await first<Row & { name: string }>(
    "/people",
    ({ name }) => name === "Marta Quill",
  );

  const file = "recipe,material,amount,cone\nFrom a Sheet,Quartz,71,6\nFrom a Sheet,Whiting,29,6";
  const matches = { Quartz: "quartz", Whiting: "whiting" };
  await ask("/import", { file, fileName: "sheet.csv", dryRun: false, matches });

  return {
    imported: await idAt("/imports"),
    tile: pictured.id,
    picture: pictured.picture?.sha256 ?? "",
    photo: photos[0]?.id ?? "",
    bucket: bucket.id,
    mix: mixes[0]?.id ?? "",
    openMix: await made(`/buckets/${await made("/buckets", tub)}/mixes`, openMix),
    report: await made(`/buckets/${bucket.id}/reports`, { trouble: "lumpy" }),
    lot,
    recall: await made("/recalls", { lot, why: "The bag was wet when it came." }),
    person,
    note: await idAt("/recipes/ebb-green/notes"),
    offer: await idAt("/recipes/ebb-green/offers"),
    test: await idAt("/recipes/slack-water/tests"),
    pair: await idAt("/pairs"),
    trial: await idAt("/trials"),
    firing: await idAt("/firings"),
    analysis: await idAt("/materials/quartz/analyses"),
    invite: await linked("/invites", { role: "member" }),
    recovery: await linked(`/people/${person}/recovery`, {}),
    handout: await linked("/recipes/slack-water/handouts", {}),
    shared: await linked("/recipes/slack-water/revisions/1/links", {}),
  };
}
