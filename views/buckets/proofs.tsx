import type { ColourDifference } from "../../src/chem/colour-comparing.ts";
import { ColourDrift } from "../charts/colour-drift.tsx";
import { Wide } from "../parts/wide.tsx";
import { noColours, type ShownColours } from "../tiles/colour-words.ts";
import { DayOf } from "../tiles/day.tsx";
import { Difference } from "../tiles/difference.tsx";
import { Swatch } from "../tiles/swatch.tsx";

type ShownProof = { id: string; on: Date; cone: string; clay: string; colours: ShownColours };

export type ProofsProps = {
  bucketId: string;
  /** The recipe and the revision that the bucket holds. */
  recipe: { slug: string };
  number: number;
  /** Oldest first, with a colour or without. */
  proofs: readonly ShownProof[];
  /** The first that has a colour, and how far the later ones are from it. */
  drift:
    | { first: ShownProof; later: readonly { tile: ShownProof; difference: ColourDifference }[] }
    | undefined;
  /** The studio's own line, ΔE00. */
  tolerance: number | null;
};

/** Whether a bucket still comes out as it did: its proof tiles against the first of them. */
export const Proofs = (props: ProofsProps) => {
  const { bucketId, proofs, drift, tolerance, recipe, number } = props;
  const points = (drift?.later ?? []).flatMap(({ tile, difference }) =>
    difference.kind === "differs" ? [{ on: tile.on, deltaE: difference.deltaE }] : [],
  );
  const last = points.at(-1);
  return (
    <section id="proofs">
      <h2>Does it still come out as it did?</h2>
      {proofs.length === 0 ? (
        <p>No proof tile of this bucket is on record, so nobody here can tell.</p>
      ) : null}
      {proofs.length > 0 && !drift ? (
        <p>Nobody has read the colour of its proof tiles yet, so they cannot be compared.</p>
      ) : null}
      {drift && points.length === 0 ? (
        <p>Only one proof tile has a colour that can be compared. The next one will show.</p>
      ) : null}
      {tolerance !== null && last && last.deltaE > tolerance ? (
        <p class="answer">
          The last proof tile is ΔE<sub>00</sub> {last.deltaE.toFixed(2)} from the first, over the
          studio's line of {tolerance}.
        </p>
      ) : null}
      {drift && points.length > 0 ? (
        <ColourDrift from={drift.first.on} points={points} tolerance={tolerance} />
      ) : null}
      {proofs.length === 0 ? null : <ProofTable {...props} />}
      {drift && tolerance === null ? (
        <p>The studio has set no line; a manager can, in the studio's settings.</p>
      ) : null}
      <p>
        <a href={`/recipes/${recipe.slug}/tiles/new?revision=${number}&bucket=${bucketId}`}>
          Put a proof tile on record
        </a>
      </p>
    </section>
  );
};

const ProofTable = ({ proofs, drift, tolerance }: ProofsProps) => (
  <Wide label="Proof tiles">
    <table class="proofs">
      <caption>Proof tiles, oldest first</caption>
      <thead>
        <tr>
          <th scope="col">Fired</th>
          <th scope="col">Colour</th>
          <th scope="col">From the first</th>
        </tr>
      </thead>
      <tbody>
        {proofs.map((proof) => (
          <tr>
            <th scope="row">
              <a href={`/tiles/${proof.id}`}>
                <DayOf at={proof.on} />
              </a>
              , cone {proof.cone}
              {proof.clay === "" ? null : `, ${proof.clay}`}
            </th>
            <td>
              <ProofSwatch colours={proof.colours} />
            </td>
            <td>
              <FromFirst proof={proof} drift={drift} tolerance={tolerance} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const ProofSwatch = ({ colours }: { colours: ShownColours }) => {
  const colour = colours.instrument ?? colours.camera;
  return colour ? <Swatch colour={colour} /> : <>none read</>;
};

type FromFirstProps = { proof: ShownProof } & Pick<ProofsProps, "drift" | "tolerance">;

const FromFirst = ({ proof, drift, tolerance }: FromFirstProps) => {
  if (noColours(proof.colours)) return <>cannot be told</>;
  const difference = drift?.later.find(({ tile }) => tile.id === proof.id)?.difference;
  if (!difference) return <>the first: the others are held against it</>;
  const over = tolerance !== null && difference.kind === "differs" && difference.deltaE > tolerance;
  return (
    <>
      <Difference difference={difference} />
      {over ? <strong>; over the studio's line</strong> : null}
    </>
  );
};
