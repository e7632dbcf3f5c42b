import { type Oxide, oxides } from "../../src/chem/oxides.ts";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";
import { Wide } from "../parts/wide.tsx";
import { FiguresBeside } from "./figures.tsx";
import { asWeighed, Lines } from "./lines.tsx";
import { PublishForms } from "./publish-forms.tsx";
import type { ShownRestated } from "./types.ts";

/** What came of it: what to weigh, how far off it is and why, and what it is not. */
export const RestatedGlaze = ({
  found,
  ...asking
}: {
  found: ShownRestated;
  member: boolean;
  idempotencyKey: string;
}) => {
  const of = found.recipe ? `${found.recipe.name}, revision ${found.recipe.number},` : "The glaze";
  return (
    <section id="restated" role="status">
      <h2>{heading[found.status]}</h2>
      {found.status === "none" ? (
        <p>{found.because} Tick other materials, or loosen the bounds.</p>
      ) : (
        <>
          {found.status === "nearest" ? (
            <p>
              <strong>Not the same glaze.</strong> {of} cannot be made from these materials; this is
              as near as they come.{" "}
              {found.withinDoubt
                ? "Every difference is inside the ± of the analyses, so they cannot be told apart by figures."
                : "Some differences are larger than the ± of the analyses."}
            </p>
          ) : (
            <p>
              {of} has the same unity formula from these materials. It is still a new glaze: other
              powders melt at their own pace.
            </p>
          )}
          {found.stopped ? (
            <p>
              The search was cut off before it ended: this is the best that was found, and there may
              be a better one.
            </p>
          ) : null}
          <Lines caption="What to weigh" lines={found.lines} told />
          <Beside found={found} />
          {found.figures ? <FiguresBeside figures={found.figures} /> : null}
          <Misses misses={found.misses} />
          <Others others={found.others} />
          <p class="caution">
            Additions are left out of both formulas. A restated glaze is a new tile: fire one before
            you trust it. It starts as a draft, and nothing that was approved of the first one
            counts for it.
          </p>
          <PublishForms lines={asWeighed(found.lines)} recipe={found.recipe} {...asking} />
        </>
      )}
      {found.leftOut.length > 0 ? (
        <details open={found.leftOut.length <= 3}>
          <summary>Powders that were left out: {found.leftOut.length}</summary>
          <ul>
            {found.leftOut.map(({ because }) => (
              <li>{because}</li>
            ))}
          </ul>
        </details>
      ) : null}
    </section>
  );
};

const heading = {
  exact: "The same formula from your shelf",
  nearest: "The nearest from your shelf",
  none: "Not from this shelf",
} as const;

const Beside = ({ found }: { found: ShownRestated }) => {
  const { wanted, unity, counted } = found;
  const held = (oxide: Oxide) => (wanted[oxide] ?? 0) > 0 || (unity?.[oxide] ?? 0) > unseen;
  const shown = oxides.filter(
    (oxide) => (counted.includes(oxide) || unity?.[oxide] !== undefined) && held(oxide),
  );
  return (
    <Wide label="The unity formulas beside each other">
      <table class="figures">
        <caption>Unity formula of the base</caption>
        <thead>
          <tr>
            <th scope="col">Oxide</th>
            <th scope="col">Wanted</th>
            <th scope="col">Got</th>
          </tr>
        </thead>
        <tbody>
          {shown.map((oxide) => (
            <tr>
              <th scope="row">
                <OxideName oxide={oxide} />
              </th>
              <td>
                {counted.includes(oxide) ? (
                  <Quantity value={wanted[oxide] ?? 0} digits={3} />
                ) : (
                  "any"
                )}
              </td>
              <td>
                <Quantity value={unity?.[oxide] ?? 0} digits={3} />
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </Wide>
  );
};

/** Below this an oxide is the noise of float64. */
const unseen = 5e-7;

const Misses = ({ misses }: Pick<ShownRestated, "misses">) =>
  misses.length === 0 ? null : (
    <>
      <h3>What is off, and why</h3>
      <ul>
        {misses.map(({ oxide, wanted, got, because }) => (
          <li>
            <OxideName oxide={oxide} /> is <Quantity value={got} digits={3} /> instead of{" "}
            <Quantity value={wanted} digits={3} />. {because}
          </li>
        ))}
      </ul>
    </>
  );

const Others = ({ others }: Pick<ShownRestated, "others">) =>
  others.length === 0 ? null : (
    <details>
      <summary>With other materials</summary>
      {others.map((other) => (
        <Lines
          caption={
            other.status === "exact"
              ? "The same formula"
              : `Not the same glaze: an oxide is off by ${plainNumber(other.worst * 100, 1)} %`
          }
          lines={other.lines}
        />
      ))}
    </details>
  );
