import { Day } from "../materials/day.tsx";
import { Cautions, DustCaution, FoodCaution } from "../parts/cautions.tsx";
import { Findings } from "../parts/findings.tsx";
import { Standing, Use } from "../parts/standing.tsx";
import { PieceChemistry } from "./chemistry.tsx";
import { Firing } from "./firing.tsx";
import { Overlaps } from "./overlaps.tsx";
import { Restated } from "./restated.tsx";
import { Tests } from "./tests.tsx";
import { Tiles } from "./tiles.tsx";
import type { ShownHandout, ShownPiece } from "./types.ts";
import { Weights } from "./weights.tsx";
import { markOf } from "./words.ts";

type PieceProps = { piece: ShownPiece; handout: ShownHandout; level: "alone" | "in a family" };

/** One recipe as it is handed out: what it may be used for comes first, what was not tested is said. */
export const Piece = ({ piece, handout, level }: PieceProps) => {
  const { recipe, number, standing, use, chemistry } = piece;
  const warnings = chemistry.findings.filter((finding) => finding.level !== "note");
  const approved = standing.is === "approved" ? (standing.for ?? undefined) : undefined;
  return (
    <section class="handout-piece" id={piece.key}>
      <p class="handout-mark print-only">{markOf(piece, handout.asOf)}</p>
      <h2>{level === "alone" ? `Revision ${number}` : recipe.name}</h2>
      <p class="recipe-by">
        {recipe.owner.name}, revision {number}, published <Day on={piece.publishedAt} />
      </p>
      {piece.newer ? (
        <p class="coarse">
          <strong>Not the newest.</strong> {piece.newer}
        </p>
      ) : null}
      <h3>May I use it on a mug?</h3>
      <p>
        <Standing is={standing.is} for={approved} /> on the day this was read.{" "}
        {approved === "functional" ? null : <Use use={approved ?? use} />}
      </p>
      {standing.because.length === 0 ? null : (
        <ul>
          {standing.because.map((says) => (
            <li>{says}</li>
          ))}
        </ul>
      )}
      {piece.recalled ? (
        <p class="coarse">
          <strong>A recall is open</strong> in the studio that made it, of a bucket of this
          revision. Ask there before you use or sell what was glazed with it.
        </p>
      ) : null}
      {piece.mayUse.says.map((says, at) => (
        <p class={at === 0 ? "answer" : undefined}>{says}</p>
      ))}
      {warnings.length > 0 ? <Findings findings={warnings} /> : null}
      <FoodCaution use={piece.mayUse.food ? "functional" : "decorative"} />
      <Weights piece={piece} handout={handout} />
      {piece.hazards.includes("dust") ? null : <DustCaution />}
      <Cautions hazards={piece.hazards} />
      <p>
        If you are pregnant, or children are in the room, leave the powders shut until you have read
        their safety data sheets.
      </p>
      {chemistry.handling?.length ? <Findings findings={chemistry.handling} /> : null}
      <Firing piece={piece} temperature={handout.temperature} />
      <Tiles piece={piece} photosAt={handout.photosAt} />
      <Tests piece={piece} />
      <Overlaps piece={piece} />
      <PieceChemistry piece={piece} />
      {piece.restated ? (
        <Restated piece={piece} restated={piece.restated} handout={handout} />
      ) : null}
      <p class="handout-mark print-only">{markOf(piece, handout.asOf)}</p>
    </section>
  );
};
