import { v7 as uuidv7 } from "uuid";
import type { RecipeFields, RecipeFormProps } from "../../views/recipes/form.tsx";
import { RecipeFormPage, StaleRevision } from "../../views/recipes/form-page.tsx";
import { listMaterialNames } from "../db/materials.ts";
import type { FoundRecipe } from "../db/recipes.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { page } from "../wire/answers.tsx";
import type { Ctx } from "../wire/context.ts";
import { isForm } from "../wire/media-types.ts";
import { type Fault, faulty, refuse } from "../wire/problems.tsx";
import { changeWorksheet } from "../wire/worksheet-changes.ts";
import { type FormLine, formLines, sentLines, typedText } from "../wire/worksheet-form.ts";
import { conventionsOf } from "./conventions.ts";
import { previewOf } from "./previews.ts";

/** A recipe form as it was typed, and as the schemas read it: without its blank rows. */
export type TypedForm = {
  fields: RecipeFields;
  lines: FormLine[];
  change: string;
  idempotencyKey: string;
  sent: Record<string, unknown>;
};

const emptyFields: RecipeFields = {
  name: "",
  shownTo: "public",
  use: "decorative",
  coneLow: "6",
  coneHigh: "6",
  atmosphere: "oxidation",
  surface: "",
  about: "",
  message: "",
  pasted: "",
};

export const blankForm = (): TypedForm => ({
  fields: emptyFields,
  lines: [],
  change: "",
  idempotencyKey: uuidv7(),
  sent: {},
});

/** A form to revise what stands there now. */
export const formOf = (revision: FoundRevision): TypedForm => ({
  ...blankForm(),
  fields: {
    ...emptyFields,
    use: revision.use,
    coneLow: revision.cones.low,
    coneHigh: revision.cones.high,
    atmosphere: revision.atmosphere,
    surface: revision.surface,
    about: revision.about,
  },
  lines: revision.lines.map(({ part, material, amount }) => ({
    part,
    material: material.name,
    amount: amount.toFixed(),
    formula: "",
  })),
});

/** What was sent, where it was a form; JSON is read as it is. */
export function asForm(c: Ctx, value: unknown): TypedForm | undefined {
  if (!isForm(c.req.header("content-type"))) return undefined;
  const sent = value as Record<string, unknown>;
  const isNew = typeof sent.revision === "object" && sent.revision !== null;
  const said = (isNew ? sent.revision : sent) as Record<string, unknown>;
  const lines = formLines(said.lines);
  const revision = { ...said, lines: sentLines(lines) };
  return {
    fields: {
      name: typedText(sent, "name"),
      shownTo: typedText(sent, "shownTo") || "public",
      use: typedText(said, "use") || "decorative",
      coneLow: typedText(said, "cones.low"),
      coneHigh: typedText(said, "cones.high"),
      atmosphere: typedText(said, "atmosphere") || "oxidation",
      surface: typedText(said, "surface"),
      about: typedText(said, "about"),
      message: typedText(said, "message"),
      pasted: typedText(sent, "pasted"),
    },
    lines,
    change: typedText(sent, "change"),
    idempotencyKey: typedText(sent, "idempotencyKey") || uuidv7(),
    sent: isNew ? { ...sent, revision } : revision,
  };
}

/** Whether a button asked for a change of the worksheet, not for publishing. */
export const wasChanged = (form: TypedForm): boolean => form.change !== "";

type Revised = { recipe: FoundRecipe; basedOn: number };
type FormPage = {
  form: TypedForm | undefined;
  faults: readonly Fault[];
  revises?: Revised | undefined;
};

/** The form with what was typed in it: 200 after a change of the worksheet, 422 with what is wrong. */
export async function recipeFormPage(c: Ctx, { form, faults, revises }: FormPage) {
  if (!form) return faulty(c, { faults });
  const props = await formProps(c, { form, faults, revises });
  const title = revises ? `Revise ${revises.recipe.name}` : "A new recipe";
  const view = () => RecipeFormPage({ title, form: props });
  return faults.length > 0
    ? faulty(c, { faults }, { page: { title, here: "library" }, view })
    : page(c, { title, here: "library" }, view);
}

type Stale = {
  recipe: FoundRecipe;
  form: TypedForm | undefined;
  base: FoundRevision | undefined;
  head: FoundRevision;
};

/** Somebody was first: both versions, what was typed still there, and the way to go on. */
export async function staleRevisionPage(
  c: Ctx,
  { recipe, form, base, head }: Stale,
  headJson: unknown,
) {
  const problem = {
    status: 409 as const,
    type: "/problems/stale",
    title: "Somebody was first",
    detail: `${head.author.name} published revision ${head.number} meanwhile. Nothing of yours is lost: look at both and publish on top of it.`,
    more: { head: headJson },
  };
  if (!form) return refuse(c, problem);
  const title = `Revise ${recipe.name}`;
  const onTop = { ...form, idempotencyKey: uuidv7() };
  const props = await formProps(c, {
    form: onTop,
    faults: [],
    revises: { recipe, basedOn: head.number },
  });
  const view = () =>
    StaleRevision({ title, says: problem.detail, slug: recipe.slug, head, base, form: props });
  return refuse(c, problem, { page: { title, here: "library" }, view });
}

async function formProps(
  c: Ctx,
  { form, faults, revises }: FormPage & { form: TypedForm },
): Promise<RecipeFormProps> {
  const prefix = revises ? "" : "revision.";
  const changed = changeWorksheet(form.change, form.lines, form.fields.pasted, prefix);
  return {
    action: revises ? `/recipes/${revises.recipe.slug}/revisions` : "/recipes",
    revises: revises && { basedOn: revises.basedOn },
    fields: { ...form.fields, pasted: changed.pasted },
    lines: changed.lines,
    faults: [...faults, ...changed.faults],
    materialNames: await listMaterialNames(c.var.db),
    preview: await previewOf(c.var.db, changed.lines, {
      conventions: conventionsOf(c, {}),
      change: form.change,
      today: c.var.now.toISOString().slice(0, 10),
    }),
    idempotencyKey: form.idempotencyKey,
  };
}
