import { Decimal } from "decimal.js";
import { Hono } from "hono";
import { CostPage } from "../../views/costs/page.tsx";
import { sharesOf } from "../chem/dry-cost.ts";
import { findLastMix, listUsers } from "../db/bucket-costs.ts";
import { findLastReadings } from "../db/bucket-readings.ts";
import { findBucket } from "../db/buckets.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundRevision, findRevision } from "../db/revisions.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { bucketCostQuery, recipeCostQuery } from "../wire/cost-query.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { costJson } from "./cost-json.ts";
import { type Costed, costed, type LitreCost, litreOf, type Weighed } from "./cost-reading.ts";

export const costs = new Hono<Env>();

costs.get(
  "/recipes/:slug/cost",
  described({ says: "What a kilogram and a litre of a recipe cost now", query: recipeCostQuery }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader } = c.var;
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader });
    if (!recipe) return notFound(c);
    const read = check(recipeCostQuery, filledIn(c));
    const number = read.kind === "read" ? (read.value.revision ?? recipe.head) : recipe.head;
    const revision = await findRevision(db, { recipeId: recipe.id, number });
    if (!revision) return notFound(c);
    const weighed = kilogramOf(revision);
    const about = {
      title: `What ${recipe.name} costs`,
      what: `One kilogram of ${recipe.name}, revision ${number}, dry`,
      back: { href: `/recipes/${recipe.slug}/revisions/${number}`, name: recipe.name },
      action: `/recipes/${recipe.slug}/cost`,
      revision: String(number),
      here: "library" as const,
    };
    const cost = await costed(c, weighed);
    const gravity = read.kind === "read" ? read.value.gravity : undefined;
    const { litre, faults } = await litreAt(c, weighed, cost, gravity);
    const all = [...(read.kind === "refused" ? read.faults : []), ...faults];
    const sheet = costSheet(c, about, { cost, litre, faults: all });
    if (all.length > 0) return faulty(c, { faults: all }, sheet);
    const of = { recipe: { slug: recipe.slug, name: recipe.name }, revision: number };
    return answer(c, { json: () => ({ ...of, ...costJson(cost, litre) }), ...sheet });
  },
);

costs.get(
  "/buckets/:id/cost",
  described({
    says: "What a bucket cost by what really went in, a litre of it, and each one's share",
    query: bucketCostQuery,
  }),
  memberRequired,
  async (c) => {
    const { db, viewer: reader, now } = c.var;
    const bucket = await findBucket(db, { id: c.req.param("id"), reader, now });
    if (!bucket) return notFound(c);
    const read = check(bucketCostQuery, filledIn(c));
    const asked = read.kind === "read" ? read.value : {};
    const mix = await findLastMix(db, bucket.id);
    const weighed = mix ? mix.poured : await recipeOf(c, bucket);
    const reading = (await findLastReadings.measured(db, [bucket.id])).get(bucket.id);
    const gravity = asked.gravity ?? reading?.specificGravity ?? undefined;
    const cost = await costed(c, weighed);
    const { litre, faults } = await litreAt(c, weighed, cost, gravity);
    const all = [...(read.kind === "refused" ? read.faults : []), ...faults];
    const users = mix ? await listUsers(db, { bucketId: bucket.id, since: mix.at }) : [];
    const shares = mix && cost ? sharing(cost, asked.shares, users) : null;
    const about = {
      title: `What ${bucket.name} cost`,
      what: mix
        ? `What went into ${bucket.name} with its last mix`
        : `One kilogram of ${bucket.recipe.name}, dry: nothing was mixed into the bucket yet`,
      back: { href: `/buckets/${bucket.id}`, name: bucket.name },
      action: `/buckets/${bucket.id}/cost`,
      here: "buckets" as const,
    };
    const sheet = costSheet(c, about, { cost, litre, faults: all, shares });
    if (all.length > 0) return faulty(c, { faults: all }, sheet);
    const json = () => ({
      bucket: { id: bucket.id, name: bucket.name },
      mix: mix?.id ?? null,
      ...costJson(cost, litre),
      shares:
        shares?.map(({ name, uses, amount }) => ({ name, uses, amount: amount.toFixed(2) })) ??
        null,
    });
    return answer(c, { json, ...sheet });
  },
);

/** An empty field of a form is one that was not filled in. */
const filledIn = (c: Ctx) =>
  Object.fromEntries(Object.entries(c.req.query()).filter(([, value]) => value !== ""));

const kilogramOf = ({ lines }: FoundRevision): Weighed[] => {
  const all = Decimal.sum(0, ...lines.map(({ amount }) => amount));
  return lines.map(({ material, amount }) => ({ material, grams: amount.times(1000).div(all) }));
};

async function recipeOf(
  c: Ctx,
  { recipe: { slug }, number }: { recipe: { slug: string }; number: number },
): Promise<Weighed[]> {
  const { db, viewer: reader } = c.var;
  const recipe = await findRecipe(db, { slug, reader });
  const revision = recipe && (await findRevision(db, { recipeId: recipe.id, number }));
  if (!revision) throw new Error("the bucket was found through the scope of its recipe");
  return kilogramOf(revision);
}

const litreAt = (
  c: Ctx,
  weighed: readonly Weighed[],
  cost: Costed | null,
  gravity: Decimal | undefined,
): Promise<{ litre: LitreCost | null; faults: Fault[] }> =>
  gravity
    ? litreOf(c, weighed, { gravity, perKilogram: cost?.cost.perKilogram })
    : Promise.resolve({ litre: null, faults: [] });

type Share = { name: string | null; uses: number | null; amount: Decimal };

/** In so many equal parts, or by how often each person used it; null where nobody did. */
function sharing(
  { cost }: Costed,
  many: number | undefined,
  users: readonly { name: string; uses: number }[],
): Share[] | null {
  if (many !== undefined) {
    const parts = Array.from({ length: many }, () => 1);
    return sharesOf(cost.known, parts).map((amount) => ({ name: null, uses: null, amount }));
  }
  if (users.length === 0) return null;
  const amounts = sharesOf(
    cost.known,
    users.map(({ uses }) => uses),
  );
  return users.map(({ name, uses }, place) => ({
    ...{ name, uses },
    amount: amounts[place] ?? new Decimal(0),
  }));
}

type About = Parameters<typeof CostPage>[0]["about"] & { here: "library" | "buckets" };
type Sheet = {
  cost: Costed | null;
  litre: LitreCost | null;
  faults: readonly Fault[];
  shares?: Share[] | null;
};

const costSheet = (c: Ctx, about: About, { cost, shares, ...sheet }: Sheet) => ({
  page: { title: about.title, here: about.here },
  view: () =>
    CostPage({
      ...{ about, costed: cost, ...sheet },
      shares,
      typed: (name) => c.req.query(name) ?? "",
    }),
});
