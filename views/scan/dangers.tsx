import { signalWords } from "../materials/data-sheet.tsx";
import { Cautions } from "../parts/cautions.tsx";
import { hazards } from "../parts/hazard-words.ts";
import type { ShownScan } from "./types.ts";

/** What can hurt whoever dips: the hazards of its powders when wet, and what their sheets say. */
export const Dangers = ({ allHazards, dissolves, runs, card }: ShownScan) => {
  const named = hazards.filter(
    (hazard) =>
      hazard !== "dust" && (allHazards.includes(hazard) || (hazard === "soluble" && dissolves)),
  );
  const sheets = card.powders.filter(({ sheet }) => sheet && sheet.signal !== "none");
  return (
    <section id="dangers">
      <h2>What to look out for</h2>
      {runs ? <p>It ran on a tile: keep it thin towards the foot.</p> : null}
      {named.length === 0 ? (
        <p>
          None of its powders is on record as harmful to touch when wet. Keep it out of mouth and
          eyes, wipe up what drips before it dries to dust, and wash your hands. Wash water is
          collected, never poured down the drain; nobody eats or drinks in the glaze room.
        </p>
      ) : (
        <Cautions hazards={named} />
      )}
      {sheets.length > 0 ? (
        <>
          <h3>What the suppliers' sheets say of its powders</h3>
          <ul>
            {sheets.map(({ name, sheet }) => (
              <li>
                <strong>
                  {name}: {sheet && signalWords[sheet.signal]}.
                </strong>{" "}
                {sheet?.statements.join(" ")}
              </li>
            ))}
          </ul>
        </>
      ) : null}
      <p>
        Safety data sheets hang in the glaze room and come before this page. If you are pregnant, or
        with children, ask a manager first.
      </p>
    </section>
  );
};
