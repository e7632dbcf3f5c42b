import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { ReplacementPage } from "../../views/replacement/page.tsx";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { publishNext } from "../db/publishing-next.ts";
import { answer, created, wantsJson } from "../wire/answers.tsx";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired, memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import {
  type AskedReplacement,
  type ReplacementBody,
  replacementBody,
  replacementQuery,
} from "../wire/replacement-body.ts";
import { isManager } from "./materials.tsx";
import { faultsOfItems, findChosen, movedSince, nextOf } from "./replacement-choosing.ts";
import { choicesJson, replacedJson } from "./replacement-json.ts";
import { type Choices, findHeads, readChoices } from "./replacement-reading.ts";
import { besideEach, restateHeads } from "./replacement-solving.ts";

export const replacements = new Hono<Env>();

const path = "/:slug/replacement";

replacements.get(
  path,
  described({
    says: "The recipes that a material is in, restated without it or for another analysis of it",
    query: replacementQuery,
  }),
  memberRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const read = check(replacementQuery, asked(c));
    if (read.kind === "refused") return faulty(c, read);
    const looked = await look(c, sheet, read.value);
    if (looked.kind === "faulty") return faulty(c, looked);
    if (looked.kind === "unsolved") return looked.refusal;
    const { json, shown } = looked;
    return answer(c, { json: () => json, ...shown({ faults: [] }) });
  },
);

replacements.post(
  path,
  described({
    says: "Publish restated revisions of several recipes, all or none, and ask for their review",
    body: replacementBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const sheet = await findSheet(c);
    if (!sheet) return notFound(c);
    const read = await readBody(c, replacementBody);
    if (read.kind === "refused") return faulty(c, read);
    const body = read.value;
    const { choices, faults } = await readChoices(c, sheet, body);
    const refused = (found: Refused) => refuseWith(c, sheet, body, found);
    if (faults.length > 0) return faulty(c, { faults });
    if (choices.analysis && !choices.analysis.inUse)
      return refused({ faults: [{ path: "analysis", says: notInUse(choices) }] });

    const { heads, wrong, stale } = await findChosen(c, choices, body);
    if (wrong.length > 0) return refused({ faults: wrong });
    if (stale.length > 0) return refused({ faults: stale, stale: true });
    const solved = await restateHeads(c, choices, heads);
    if (solved.kind === "unsolved") return solved.refusal;
    const cannot = faultsOfItems(solved.items);
    if (cannot.length > 0) return refused({ faults: cannot });

    const published = await publishNext(c.var.db, {
      ...actOf(c),
      next: nextOf(solved.items, choices, body),
    });
    switch (published.kind) {
      case "stale":
        return refused({ faults: movedSince(heads, published.recipeIds), stale: true });
      case "published":
        return created(c, `/materials/${sheet.slug}/replacement?${queryOf(body)}`, {
          revisions: solved.items.map(({ recipe }) => ({
            recipe: recipe.slug,
            number: published.numbers.get(recipe.id),
            href: `/recipes/${recipe.slug}/revisions/${published.numbers.get(recipe.id)}`,
          })),
        });
    }
  },
);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

/** What the address asks for; a box that was left empty is not there. */
function asked(c: Ctx): Record<string, unknown> {
  const { with: powders = [], ...rest } = c.req.queries();
  const filled = Object.entries(rest).flatMap(([name, [value]]) => (value ? [[name, value]] : []));
  return { ...Object.fromEntries(filled), with: powders };
}

/** The same choices as an address, from the first recipe on. */
function queryOf({ reason, with: powders, analysis, most }: AskedReplacement): string {
  const query = new URLSearchParams({ reason, most: String(most) });
  for (const slug of powders) query.append("with", slug);
  if (analysis) query.set("analysis", analysis);
  return query.toString();
}

type Again = { faults: readonly Fault[]; body?: ReplacementBody | undefined };

/** A page of recipes with what would become of each. */
async function look(c: Ctx, sheet: MaterialSheet, wanted: AskedReplacement) {
  const { choices, shelf, faults } = await readChoices(c, sheet, wanted);
  if (faults.length > 0) return { kind: "faulty" as const, faults };
  const found = await findHeads(c, choices);
  const solved = await restateHeads(c, choices, found.items);
  if (solved.kind === "unsolved") return solved;
  const items = await besideEach(c, solved.items);
  const next = found.next && `?${queryOf(wanted)}&${new URLSearchParams({ after: found.next })}`;
  const shown = ({ faults: wrong, body }: Again) => ({
    page: { title: `${sheet.name}: what stands in for it`, here: "shelf" } as const,
    view: () =>
      ReplacementPage({
        ...{ material: sheet, analyses: sheet.analyses, shelf, choices, items, next },
        ...{ faults: wrong.map(atItsBox), message: body?.message ?? "" },
        ...{ mayAct: isManager(c), idempotencyKey: uuidv7() },
        ticked: body?.recipes.map(({ slug }) => slug),
      }),
  });
  const json = { ...choicesJson(choices), items: items.map(replacedJson), next: found.next };
  return { kind: "looked" as const, json, shown };
}

/** A box of the form is for a recipe and its head at once. */
const atItsBox = ({ path, says }: Fault): Fault => ({
  path: path.replace(/^(recipes\.\d+)\..*$/, "$1"),
  says,
});

type Refused = { faults: readonly Fault[]; stale?: boolean };

/** Nothing was published: the page again, with what was ticked and what is wrong with that. */
async function refuseWith(
  c: Ctx,
  sheet: MaterialSheet,
  body: ReplacementBody,
  { faults, stale }: Refused,
) {
  const looked = wantsJson(c) ? undefined : await look(c, sheet, body);
  const given = looked?.kind === "looked" ? looked.shown({ faults, body }) : undefined;
  if (!stale) return faulty(c, { faults }, given);
  const title = "Somebody was first";
  const detail = `${faults.map(({ says }) => says).join(" ")} Nothing was published.`;
  return refuse(c, { status: 409, type: "/problems/stale", title, detail, errors: faults }, given);
}

const notInUse = ({ material }: Choices): string =>
  `This analysis of ${material.name} is not in use, and new revisions pin the one that is. Put it in use first.`;
