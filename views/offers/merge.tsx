import type { Merged, Side } from "../../src/chem/merge-lines.ts";
import { analysisWords } from "../compare/words.ts";
import { idOfField } from "../parts/field.tsx";
import { powderName } from "../parts/powder-name.tsx";
import { Wide } from "../parts/wide.tsx";
import { claimWords } from "../tiles/cone-words.ts";
import type { MergeLine, ShownMerge } from "./types.ts";

/** One thing that is merged, in words: what it is called and what each side says. */
export type MergeRow = {
  /** The place of a choice: `lines.base:whiting`, `fields.use`. */
  path: string;
  name: string;
  base: string;
  recipe: string;
  offer: string;
  take: Merged<unknown>["take"];
};

/** A merge in words, its lines and what else differs. */
export const mergeRows = ({ lines, fields }: ShownMerge): MergeRow[] => [
  ...lines.map((merged) => row("lines", merged, nameOf(merged), amountWords(merged))),
  ...[
    row("fields", fields.use, "Use", (use) => use),
    row("fields", fields.cones, "Cones", claimWords),
    row("fields", fields.atmosphere, "Atmosphere", (atmosphere) => atmosphere),
    row("fields", fields.surface, "Surface", (surface) => surface || "not said"),
    row("fields", fields.about, "About it", (about) => about || "nothing said"),
  ].filter(({ take }) => take !== "either"),
];

function row<Value>(
  place: "lines" | "fields",
  { key, base, recipe, offer, take }: Merged<Value>,
  name: string,
  words: (value: Value) => string,
): MergeRow {
  const said = (value: Value | undefined) => (value === undefined ? "not in it" : words(value));
  const sides = { base: said(base), recipe: said(recipe), offer: said(offer) };
  return { path: `${place}.${key}`, name, ...sides, take };
}

const nameOf = ({ base, recipe, offer }: Merged<MergeLine>): string => {
  const line = (recipe ?? offer ?? base)?.line;
  return `${line ? powderName(line.material.name) : ""}${line?.part === "addition" ? ", on top of the base" : ""}`;
};

/** The amount, and the analysis where that is not the same on all sides. */
const amountWords =
  ({ base, recipe, offer }: Merged<MergeLine>) =>
  ({ amount, line: { analysis } }: MergeLine): string => {
    const known = [base, recipe, offer].flatMap((side) =>
      side ? [analysisWords(side.line.analysis)] : [],
    );
    const same = new Set(known).size === 1;
    return same ? amount.toFixed() : `${amount.toFixed()} (${analysisWords(analysis)})`;
  };

const takenFrom = { recipe: "the recipe", offer: "the offer", either: "both alike" } as const;

/** What would come of it: each line, and on whose word. What has to be chosen says so. */
export const MergeTable = ({ rows }: { rows: readonly MergeRow[] }) => {
  const caption = "What would come of it";
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">What</th>
            <th scope="col">Before both</th>
            <th scope="col">Then</th>
            <th scope="col">On whose word</th>
          </tr>
        </thead>
        <tbody>
          {rows.map(({ name, base, recipe, offer, take }) => (
            <tr class={take === "either" ? undefined : "compare-changed"}>
              <th scope="row">{name}</th>
              <td class="compare-words">{base}</td>
              <td class="compare-words">
                {take === null ? "to be chosen" : take === "offer" ? offer : recipe}
              </td>
              <td class="compare-words">{take === null ? "both changed it" : takenFrom[take]}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

type ConflictsProps = {
  rows: readonly MergeRow[];
  chosen: (path: string) => string;
  faultOf: (path: string) => string | undefined;
};

/** What both changed, each its own way: a person has to say whose counts. */
export const Conflicts = ({ rows, chosen, faultOf }: ConflictsProps) => (
  <>
    {rows
      .filter(({ take }) => take === null)
      .map(({ path, name, base, recipe, offer }) => {
        const radio = (side: Side, says: string) => (
          <label>
            <input
              type="radio"
              id={side === "recipe" ? idOfField(path) : undefined}
              name={path}
              value={side}
              checked={chosen(path) === side}
            />
            {side === "recipe" ? "the recipe's" : "the offer's"}: {says}
          </label>
        );
        const fault = faultOf(path);
        return (
          <fieldset class={fault ? "sheet-group field-faulty" : "sheet-group"}>
            <legend>{name}: both changed it</legend>
            {fault ? <span class="field-fault">{fault}</span> : null}
            <p>Before both: {base}</p>
            {radio("recipe", recipe)}
            {radio("offer", offer)}
          </fieldset>
        );
      })}
  </>
);
