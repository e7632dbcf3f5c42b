import type { Expansion } from "../../src/chem/chemistry-types.ts";
import { type Beside, expansionBeside } from "../../src/chem/expansion-comparison.ts";
import { OnTile } from "../tests/list.tsx";
import type { ShownTest } from "../tests/types.ts";
import { Quantity } from "./quantity.tsx";

export type ShownFit = {
  body: { slug: string; name: string };
  /** The glaze last recorded as fitting on the body. */
  reference: {
    recipe: { slug: string; name: string };
    number: number;
    test: { id: string };
    expansion: readonly Expansion[];
  } | null;
};

export type ShownFits = {
  fits: readonly ShownFit[];
  /** All tests of the melt; those of thermal shock are told beside the numbers. */
  tests: readonly ShownTest[];
};

type ExpansionBesideProps = ShownFits & { expansion: readonly Expansion[] };

/** A glaze's expansion beside what fits on each body, and what its own tests say of fit. */
export const ExpansionBeside = ({ expansion, fits, tests }: ExpansionBesideProps) => (
  <>
    <h4>Beside glazes that fit</h4>
    <ul class="expansion-beside">
      {fits.map((fit) => (
        <FitLines fit={fit} expansion={expansion} />
      ))}
    </ul>
    <OwnShocks tests={tests} />
    <p>
      A number like this says nothing of fit by itself, and higher or lower is no word on whether it
      crazes. Only tiles on the body, and a thermal shock test of them, tell.
    </p>
  </>
);

type Told = Extract<Beside, { model: string }>;

const FitLines = ({ fit, expansion }: { fit: ShownFit; expansion: readonly Expansion[] }) => {
  const { body, reference } = fit;
  const told = expansion.flatMap(({ model, name }) => {
    const beside = expansionBeside(model, expansion, reference?.expansion);
    return beside.kind === "no-reference" ? [] : [{ name: name ?? model, beside }];
  });
  if (!reference || told.length === 0) return <li>No reference on {body.name} yet.</li>;
  const { recipe, number, test } = reference;
  return (
    <>
      {kinds.map((kind) => {
        const alike = told.filter(({ beside }) => beside.kind === kind);
        return alike.length === 0 ? null : (
          <li>
            {kindWords[kind]}{" "}
            <a href={`/recipes/${recipe.slug}/revisions/${number}`}>{recipe.name}</a>,{" "}
            <a href={`/tests/${test.id}`}>recorded as fitting</a> on{" "}
            <a href={`/bodies/${body.slug}`}>{body.name}</a>: by{" "}
            {alike.map(({ name, beside: { by } }, place) => (
              <>
                {place > 0 ? ", by " : ""}
                <Quantity value={Math.abs(by.value)} plusMinus={by.plusMinus} digits={2} /> ({name})
              </>
            ))}
          </li>
        );
      })}
    </>
  );
};

const kinds = ["higher", "lower", "cannot-be-told"] as const satisfies Told["kind"][];

const kindWords: Readonly<Record<Told["kind"], string>> = {
  higher: "Higher than",
  lower: "Lower than",
  "cannot-be-told": "Cannot be told apart from",
};

const OwnShocks = ({ tests }: Pick<ShownFits, "tests">) => {
  const shocks = tests.filter(({ kind, withdrawn }) => kind === "thermal shock" && !withdrawn);
  if (shocks.length === 0) return <p>No thermal shock test of this glaze is on record.</p>;
  return (
    <ul>
      {shocks.map(({ id, outcome, tile }) => (
        <li>
          Its own <a href={`/tests/${id}`}>thermal shock test</a>: {outcome}
          <OnTile tile={tile} />.
        </li>
      ))}
    </ul>
  );
};
