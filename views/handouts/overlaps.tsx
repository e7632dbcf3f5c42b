import { Standing } from "../parts/standing.tsx";
import type { ShownPiece } from "./types.ts";

/** Which overlaps were tested: a standing of one glaze says nothing of two. */
export const Overlaps = ({ piece: { pairs, recipe } }: { piece: ShownPiece }) => (
  <>
    <h3>Over or under another glaze</h3>
    {pairs.length === 0 ? (
      <p>
        No overlap was tested: two glazes over each other are another glaze, and decorative only.
      </p>
    ) : (
      <>
        <ul>
          {pairs.map(({ over, under, about, standing }) => (
            <li>
              {over.name === recipe.name
                ? `Over ${under.name}, revision ${under.number}`
                : `Under ${over.name}, revision ${over.number}`}{" "}
              <Standing
                is={standing.is}
                for={standing.is === "approved" ? (standing.for ?? undefined) : undefined}
              />{" "}
              {about}
            </li>
          ))}
        </ul>
        <p>Every other overlap is decorative only, and so is one that is not approved.</p>
      </>
    )}
  </>
);
