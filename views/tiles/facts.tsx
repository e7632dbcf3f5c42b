import type { Child } from "hono/jsx";
import { capital, claimWords, coneInFull, isOutside } from "./cone-words.ts";
import { Day, DayOf } from "./day.tsx";
import { defectWords } from "./defect-words.ts";
import type { GalleryTile } from "./gallery.tsx";
import { Layered } from "./layered.tsx";
import { witnessInFull } from "./witness-words.ts";

/** How a tile was made and fired, what came out, and who says so. */
export const Facts = ({ tile }: { tile: GalleryTile }) => (
  <dl class="tile-facts">
    <Fact name="Recipe">
      <a href={`/recipes/${tile.recipe.slug}`}>{tile.recipe.name}</a>,{" "}
      <a href={`/recipes/${tile.recipe.slug}/revisions/${tile.number}`}>revision {tile.number}</a>
    </Fact>
    {tile.layered ? (
      <Fact name="Lies over">
        <Layered over={tile.over} />
      </Fact>
    ) : null}
    <Fact name="Fired at">
      {capital(coneInFull(tile.cone))}.
      {isOutside(tile.cone, tile.claimed) ? (
        <>
          {" "}
          <strong>Outside the claimed cones:</strong> the revision claims {claimWords(tile.claimed)}
          .
        </>
      ) : null}
    </Fact>
    <Fact name="Firing">
      <Firing tile={tile} />
    </Fact>
    <Fact name="Atmosphere">{tile.atmosphere}</Fact>
    <Fact name="Clay body">
      {tile.body ? (
        <a href={`/bodies/${tile.body.slug}`}>{tile.body.name}</a>
      ) : (
        tile.clay || "not told"
      )}
    </Fact>
    <Fact name="Bisque">{tile.bisqueCone === null ? "not told" : `cone ${tile.bisqueCone}`}</Fact>
    <MaybeFact name="Put on" says={putOn(tile)} />
    {tile.thicknessMm === null ? null : (
      <Fact name="Glaze thickness">{tile.thicknessMm.toFixed()} mm</Fact>
    )}
    {tile.bucket === null ? null : (
      <Fact name="Proof tile of">
        <a href={`/buckets/${tile.bucket.id}`}>{tile.bucket.name}</a>
      </Fact>
    )}
    <MaybeFact name="Place in the kiln" says={tile.place} />
    <MaybeFact name="Beside it stood" says={tile.beside} />
    <MaybeFact name="Surface" says={tile.surface} />
    <MaybeFact name="Transparency" says={tile.transparency ?? ""} />
    <MaybeFact name="In the fire it" says={tile.movement ?? ""} />
    <Fact name="Defects">
      {tile.defects.length === 0 ? (
        "none ticked"
      ) : (
        <ul class="tile-defects">
          {tile.defects.map((defect) => (
            <li>
              <strong>{capital(defect)}.</strong> {defectWords[defect]}
            </li>
          ))}
        </ul>
      )}
    </Fact>
    <MaybeFact name="Remark" says={tile.remark} />
    <Fact name="Put on record by">
      {tile.by.name}, <DayOf at={tile.at} />
    </Fact>
  </dl>
);

/** How the glaze got onto the tile: "dipped, 3 seconds, 2 coats, from a slurry of 1.45". */
function putOn({ application, seconds, coats, specificGravity }: GalleryTile): string {
  const told = [
    application,
    seconds && `${seconds.toFixed()} ${seconds.eq(1) ? "second" : "seconds"}`,
    coats && (coats === 1 ? "one coat" : `${coats} coats`),
    specificGravity && `from a slurry of specific gravity ${specificGravity.toFixed()}`,
  ];
  return told.filter(Boolean).join(", ");
}

const Firing = ({ tile: { firing, firedOn } }: { tile: GalleryTile }) => {
  if (firing === null)
    return (
      <>
        {firedOn === null ? "Day not told" : <Day on={firedOn} />}; no firing on record, so no
        witness cone stands for it.
      </>
    );
  return (
    <>
      <a href={`/firings/${firing.id}`}>
        {firing.kiln.name}, <DayOf at={firing.startedAt} />
      </a>
      {firing.withdrawnWhy === null ? null : (
        <>
          . <strong>That firing was withdrawn:</strong> {firing.withdrawnWhy} Its cones witness
          nothing for this tile
        </>
      )}
      {firing.witness.length === 0 ? (
        ". No witness cone stood in it."
      ) : (
        <ul>
          {firing.witness.map((stood) => (
            <li>{capital(witnessInFull(stood))}</li>
          ))}
        </ul>
      )}
    </>
  );
};

/** A fact that is left out where nobody told it. */
const MaybeFact = ({ name, says }: { name: string; says: string }) =>
  says === "" ? null : <Fact name={name}>{says}</Fact>;

const Fact = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
