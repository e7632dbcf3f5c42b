import type { Decimal } from "decimal.js";
import { Findings } from "../parts/findings.tsx";
import { Standing } from "../parts/standing.tsx";
import { MissList, UnityBeside } from "../parts/unity-beside.tsx";
import { Wide } from "../parts/wide.tsx";
import { UnityTable } from "./chemistry.tsx";
import { nameOf } from "./family.tsx";
import type { ShownHandout, ShownPiece, ShownRestated } from "./types.ts";

type RestatedProps = { piece: ShownPiece; restated: ShownRestated; handout: ShownHandout };

/** The recipe from the reader's own powders beside the one handed out: a draft, without any tile. */
export const Restated = ({ piece, restated, handout }: RestatedProps) => (
  <section
    class="handout-restated"
    id={piece.key === handout.pieces[0]?.key ? "restated" : undefined}
  >
    <h3>{piece.recipe.name}, with your powders</h3>
    {restated.kind === "mix" ? (
      <Mix piece={piece} mix={restated} handout={handout} />
    ) : (
      <p>{restated.says}</p>
    )}
  </section>
);

type Mix = Extract<ShownRestated, { kind: "mix" }>;

const Mix = ({ piece, mix, handout }: { piece: ShownPiece; mix: Mix; handout: ShownHandout }) => {
  const { chemistry, misses, status } = mix;
  const warnings = chemistry.findings.filter(({ level }) => level !== "note");
  const name = piece.recipe.name;
  return (
    <>
      <p>
        <Standing is="draft" />{" "}
        {status === "exact" ? (
          <>
            <strong>Exact:</strong> the same unity formula from other powders. It is a new glaze all
            the same, and needs tiles and tests of its own; nothing that was approved of {name}{" "}
            counts for it, and until then it is decorative only.
          </>
        ) : (
          <>
            <strong>Nearest: not the same glaze.</strong> {name} cannot be made of these powders;
            this is as near as they come.{" "}
            {mix.withinDoubt
              ? "Every difference is inside the ± of the analyses."
              : "Some differences are larger than the ± of the analyses."}{" "}
            It needs tiles and tests of its own, and until then it is decorative only.
          </>
        )}
      </p>
      <AmountsBeside name={name} lines={mix.lines} handout={handout} />
      <UnityBeside
        label={`Unity formulas of the base of ${name}`}
        heads={["Before", "After"]}
        formulas={[mix.wanted, mix.got]}
        counted={mix.counted}
      />
      {misses.length === 0 ? null : <MissList misses={misses} />}
      <UnityTable
        unity={chemistry.unity}
        caption={`Unity formula of ${name} with your powders, additions and all`}
      />
      {warnings.length > 0 ? <Findings findings={warnings} /> : null}
      {[...mix.leftOut, ...mix.assumed].map((says) => (
        <p>{says}</p>
      ))}
    </>
  );
};

const amount = (decimal: Decimal | null): string =>
  decimal === null ? "none" : decimal.toDecimalPlaces(2).toFixed(2);

const AmountsBeside = ({
  name,
  lines,
  handout,
}: {
  name: string;
  lines: Mix["lines"];
  handout: ShownHandout;
}) => (
  <Wide label={`Amounts of ${name} beside those with your powders`}>
    <table class="lines">
      <caption>Percent of the base</caption>
      <thead>
        <tr>
          <th scope="col">Powder</th>
          <th scope="col" class="number">
            Handed out
          </th>
          <th scope="col" class="number">
            With yours
          </th>
        </tr>
      </thead>
      <tbody>
        {lines.map((line) => (
          <tr>
            <th scope="row">
              {line.own ? line.name : nameOf(handout, line.slug, line.name)}
              {line.part === "addition" ? ", on top" : ""}
              {line.own ? <strong> yours</strong> : null}
            </th>
            <td class="number">{amount(line.before)}</td>
            <td class="number">{amount(line.after)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);
