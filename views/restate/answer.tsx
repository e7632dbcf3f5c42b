import { plainNumber } from "../parts/quantity.tsx";
import { MissList, UnityBeside } from "../parts/unity-beside.tsx";
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
          <UnityBeside
            label="The unity formulas beside each other"
            heads={["Wanted", "Got"]}
            formulas={[found.wanted, found.unity ?? {}]}
            counted={found.counted}
            uncounted="any"
          />
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

const Misses = ({ misses }: Pick<ShownRestated, "misses">) =>
  misses.length === 0 ? null : (
    <>
      <h3>What is off, and why</h3>
      <MissList misses={misses} />
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
