import { Field } from "../parts/field.tsx";
import type { ShownLine, ShownRestated } from "./types.ts";

type PublishFormsProps = {
  lines: readonly ShownLine[];
  recipe: ShownRestated["recipe"];
  member: boolean;
  idempotencyKey: string;
  /** What was done to the recipe. */
  done?: "restated" | "moved" | undefined;
};

/** The way on: a fork with these lines, or the form of a new recipe with them in it. */
export const PublishForms = ({
  lines,
  recipe,
  member,
  idempotencyKey,
  done = "restated",
}: PublishFormsProps) =>
  member ? (
    <>
      {recipe ? (
        <ForkForm lines={lines} recipe={recipe} idempotencyKey={idempotencyKey} done={done} />
      ) : null}
      <form class="screen-only" method="post" action="/recipes">
        {recipe ? (
          <>
            <input type="hidden" name="revision.cones.low" value={recipe.cones.low} />
            <input type="hidden" name="revision.cones.high" value={recipe.cones.high} />
          </>
        ) : null}
        <input type="hidden" name="revision.message" value={messageOf(recipe, done)} />
        <HiddenLines lines={lines} under="revision." />
        <div class="buttons">
          <button type="submit" name="change" value="work-out" class={recipe ? "quiet" : undefined}>
            Take it to a new recipe
          </button>
        </div>
      </form>
    </>
  ) : (
    <p>
      <a href="/session/new">Sign in</a> to{" "}
      {recipe ? `fork ${recipe.name} with these lines` : "take these lines to a recipe of your own"}
      .
    </p>
  );

type ForkFormProps = Pick<PublishFormsProps, "lines" | "idempotencyKey"> & {
  done: "restated" | "moved";
  recipe: NonNullable<ShownRestated["recipe"]>;
};

const ForkForm = ({ lines, recipe, idempotencyKey, done }: ForkFormProps) => (
  <form class="sheet screen-only" method="post" action={`/recipes/${recipe.slug}/forks`}>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <input type="hidden" name="revision" value={String(recipe.number)} />
    <input type="hidden" name="message" value={messageOf(recipe, done)} />
    <HiddenLines lines={lines} under="" />
    <Field
      label="Name of the fork"
      name="name"
      value={`${recipe.name.slice(0, 71)} ${done}`}
      hint="It starts as a draft of your own and says where it came from."
      maxlength={80}
      required
      autocomplete="off"
    />
    {lines.some(({ analysis }) => analysis && analysis.is !== "in use") ? (
      <p>Its lines are pinned to the analyses in use, not to those of the newest lots.</p>
    ) : null}
    <div class="buttons">
      <button type="submit" class="main">
        Fork {recipe.name} with these lines
      </button>
    </div>
  </form>
);

const HiddenLines = ({ lines, under }: { lines: readonly ShownLine[]; under: string }) => (
  <>
    {lines.map(({ part, material, amount }, row) => (
      <>
        <input type="hidden" name={`${under}lines.${row}.part`} value={part} />
        <input type="hidden" name={`${under}lines.${row}.material`} value={material} />
        <input type="hidden" name={`${under}lines.${row}.amount`} value={amount} />
      </>
    ))}
  </>
);

const messageOf = (recipe: ShownRestated["recipe"], done: "restated" | "moved"): string =>
  recipe
    ? `${done === "moved" ? "Moved" : "Restated"} from ${recipe.name}, revision ${recipe.number}.`
    : "Restated from a unity formula or lines.";
