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
    {tile.thicknessMm === null ? null : (
      <Fact name="Glaze thickness">{tile.thicknessMm.toFixed()} mm</Fact>
    )}
    {tile.place === "" ? null : <Fact name="Place in the kiln">{tile.place}</Fact>}
    {tile.surface === "" ? null : <Fact name="Surface">{tile.surface}</Fact>}
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
    {tile.remark === "" ? null : <Fact name="Remark">{tile.remark}</Fact>}
    <Fact name="Put on record by">
      {tile.by.name}, <DayOf at={tile.at} />
    </Fact>
  </dl>
);

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

const Fact = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
