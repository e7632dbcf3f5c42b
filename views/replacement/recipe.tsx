import { Decimal } from "decimal.js";
import { differenceWords } from "../compare/words.ts";
import { numberWords } from "../numbers/words.ts";
import { OxideName } from "../parts/oxide.tsx";
import { powderName } from "../parts/powder-name.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { MoveList } from "../recipes/today.tsx";
import type { ShownReplaced } from "./types.ts";

type RecipeProps = {
  item: ShownReplaced;
  /** Its box, for a manager. */
  tick: { checked: boolean; id: string | undefined } | undefined;
  most: number;
};

/** One recipe: what it is made of and would be, and what that changes. */
export const ReplacedRecipe = ({ item, tick, most }: RecipeProps) => {
  const { recipe, head, beside, approved } = item;
  const { slug, name, owner } = recipe;
  return (
    <section class="replaced">
      <h2>
        <a href={`/recipes/${slug}`}>{name}</a>, revision {head.number}
      </h2>
      <p>
        {owner.name}. <strong>{outcomeWords(item)}</strong>
        {item.nearer ? ` More than ${most} new powders would come nearer.` : ""}
      </p>
      {approved ? (
        <p>
          Revision {approved.number} is approved for {approved.for} use and stays so. The new one
          begins in review.
        </p>
      ) : null}
      {item.weighed ? <Lines item={item} weighed={item.weighed} /> : null}
      {beside ? <Changes item={item} beside={beside} /> : null}
      {tick && item.weighed ? (
        <p class="screen-only">
          <label>
            <input
              type="checkbox"
              id={tick.id}
              name="recipes"
              value={`${slug}@${head.number}`}
              checked={tick.checked}
            />{" "}
            Publish this as the next revision of {name}
          </label>
        </p>
      ) : null}
    </section>
  );
};

function outcomeWords({ is, because, beside }: ShownReplaced): string {
  const same = beside?.toldApart.length === 0;
  switch (is) {
    case "none":
      return `It cannot be done. ${because}`;
    case "by hand":
    case "late":
      return because ?? "";
    case "exact":
      return "The same unity formula.";
    case "nearest":
      return same
        ? "Not quite the same, and within what the analyses can tell."
        : "Not the same glaze: this is as near as it comes.";
  }
}

type Weighed = NonNullable<ShownReplaced["weighed"]>;

/** Both in percent of the base, so that they can be read beside each other. */
const Lines = ({ item, weighed }: { item: ShownReplaced; weighed: Weighed }) => {
  const caption = `${item.recipe.name} now and restated, % of the base`;
  const [before, after] = [percents(item.head.lines), percents(weighed)];
  const keys = [...new Set([...before.keys(), ...after.keys()])];
  return (
    <Wide label={caption}>
      <table class="figures">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Powder</th>
            <th scope="col">Now</th>
            <th scope="col">Restated</th>
          </tr>
        </thead>
        <tbody>
          {keys.map((key) => (
            <tr>
              <th scope="row">{(after.get(key) ?? before.get(key))?.name}</th>
              <td>{before.get(key)?.percent ?? "none"}</td>
              <td>{after.get(key)?.percent ?? "none"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

/** Lines of the same powder and part as one. */
function percents(lines: Weighed): Map<string, { name: string; percent: string }> {
  const base = lines
    .filter(({ part }) => part === "base")
    .reduce((sum, { amount }) => sum.plus(amount), new Decimal(0));
  const amounts = new Map<string, { name: string; amount: Decimal }>();
  for (const { part, material, amount } of lines) {
    const key = `${part} ${material.slug}`;
    const called = powderName(material.name);
    const name = part === "addition" ? `${called}, on top` : called;
    amounts.set(key, { name, amount: amounts.get(key)?.amount.plus(amount) ?? amount });
  }
  return new Map(
    [...amounts].map(([key, { name, amount }]) => [
      key,
      { name, percent: amount.times(100).div(base).toDecimalPlaces(3).toFixed() },
    ]),
  );
}

type Beside = NonNullable<ShownReplaced["beside"]>;

const Changes = ({ item, beside }: { item: ShownReplaced; beside: Beside }) => (
  <>
    <ul>
      {beside.worst && item.is === "nearest" ? (
        <li>
          Furthest off is <OxideName oxide={beside.worst.of} />, from{" "}
          {plainNumber(beside.worst.before, 3)} to {plainNumber(beside.worst.after, 3)}:{" "}
          {differenceWords(beside.worst)}. {reasonOf(item, beside.worst.of)}
        </li>
      ) : null}
      {beside.toldApart
        .filter(({ of }) => of !== beside.worst?.of)
        .map((difference) => (
          <li>
            <OxideName oxide={difference.of} /> {differenceWords(difference)}.{" "}
            {reasonOf(item, difference.of)}
          </li>
        ))}
      {beside.figures.map((figure) => (
        <li>
          {numberWords(figure.of)}, from {plainNumber(figure.before, 2)} to{" "}
          {plainNumber(figure.after, 2)}
          {figure.of === "loss" ? " %" : " · 10⁻⁶/K"}: {differenceWords(figure)}.
        </li>
      ))}
    </ul>
    {beside.moves.length > 0 ? (
      <>
        <p>Further than an approval would bear:</p>
        <MoveList moves={beside.moves} />
      </>
    ) : null}
  </>
);

const reasonOf = ({ misses = [] }: ShownReplaced, oxide: string): string =>
  misses.find((miss) => miss.oxide === oxide)?.because ?? "";
