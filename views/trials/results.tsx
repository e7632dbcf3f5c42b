import { When } from "../people/when.tsx";
import { Withdrawn } from "../tiles/gallery.tsx";
import { TilePhoto } from "../tiles/photo.tsx";
import type { ShownResult } from "./types.ts";

type CameOfProps = { results: readonly ShownResult[]; mark: string };

/** What came of a point, firing by firing, with its pictures. */
export const CameOf = ({ results, mark }: CameOfProps) => (
  <>
    {results.map((result) => (
      <div class="trial-result">
        <p>
          {result.withdrawn ? <s>{resultWords(result)}</s> : resultWords(result)} {result.by.name},{" "}
          <When at={result.at} />
          {result.firing ? (
            <>
              , in the <a href={`/firings/${result.firing.id}`}>firing of {result.firing.name}</a>
            </>
          ) : null}
          .
        </p>
        {result.withdrawn ? <Withdrawn {...result.withdrawn} /> : null}
        {result.remark === "" ? null : (
          <p class="about">{result.withdrawn ? <s>{result.remark}</s> : result.remark}</p>
        )}
        {result.photos.length === 0 ? (
          <p class="tile-none">no picture</p>
        ) : (
          <div class="trial-photos">
            {result.photos.map((photo) => (
              <TilePhoto photo={photo} instead={`Tile ${mark} of the trial`} sizes="12rem" />
            ))}
          </div>
        )}
      </div>
    ))}
  </>
);

function resultWords({ cone, body, surface, defects }: ShownResult): string {
  const fired = [cone === null ? "" : `cone ${cone}`, body ? `on ${body.name}` : ""]
    .filter((words) => words !== "")
    .join(" ");
  const came = [surface, ...defects].filter((words) => words !== "").join(", ");
  const parts = [came, fired].filter((words) => words !== "").join("; ");
  return parts === "" ? "" : `${parts.charAt(0).toUpperCase()}${parts.slice(1)}.`;
}
