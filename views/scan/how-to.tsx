import type { Child } from "hono/jsx";
import { isCone } from "../../src/chem/cones.ts";
import { claimInFull } from "../labels/words.ts";
import { Day } from "../materials/day.tsx";
import { When } from "../people/when.tsx";
import { claimWords, coneInFull } from "../tiles/cone-words.ts";
import type { ShownScan } from "./types.ts";

/** How to glaze with it, step by step; what nobody said is asked for. */
export const HowTo = (props: ShownScan) => {
  const { directions, cones, atmosphere } = props.card;
  const bisque = directions?.bisqueCone ?? null;
  const firesTo = cones.low === cones.high ? "Fire to" : "Fire within";
  return (
    <section id="how">
      <h2>How to use it</h2>
      {directions ? null : (
        <p>Nobody has said yet how it is used: ask before you dip, and stir it first.</p>
      )}
      <ol class="scan-steps">
        <Step name="Stir">
          {sentence(directions?.stirring || "From the bottom, until nothing is left there")}{" "}
          <Kept {...props} />
        </Step>
        <Step name="Body">{directions?.body?.name}</Step>
        <Step name="Bisque">{bisque && isCone(bisque) ? coneInFull(bisque) : bisque}</Step>
        <Step name="Glaze">{coatsOf(directions)}</Step>
        <Step name="Keep clear of the foot">
          {directions?.footMm && `${directions.footMm.toFixed()} mm`}
        </Step>
        <Step name="Catch dish">
          {directions?.catchDish || props.runs
            ? "Under every piece: it can run onto the shelf."
            : null}
        </Step>
        <Step name={firesTo}>
          {claimInFull(cones)}, {atmosphere}. Believe the witness cone beside the ware; another cone
          than {claimWords(cones)} is another glaze.
        </Step>
      </ol>
    </section>
  );
};

/** As it was written, with a full stop where it has none. */
const sentence = (said: string): string => (/[.!?]$/.test(said) ? said : `${said}.`);

function coatsOf(directions: ShownScan["card"]["directions"]): string | null {
  const { coats, dipSeconds } = directions ?? {};
  const dips = dipSeconds ? `dip for ${dipSeconds.toFixed()} seconds` : null;
  const many = coats ? `${coats} ${coats === 1 ? "coat" : "coats"}` : null;
  return [many, dips].filter((says) => says !== null).join(", ") || null;
}

const Kept = ({ measured, stirredAt, mixedAt, forVisitor }: ShownScan) => (
  <>
    {stirredAt ? (
      <>
        Last stirred <Day on={stirredAt} />.
      </>
    ) : (
      "Nobody has put down when it was stirred."
    )}{" "}
    {measured?.specificGravity ? (
      <>
        Last measured <When at={measured.at} />
        {forVisitor ? "" : ` by ${measured.by}`}: gravity {measured.specificGravity.toFixed()}
        {measured.flowSeconds ? `, flow ${measured.flowSeconds.toFixed()} s` : ""}.
      </>
    ) : null}{" "}
    {mixedAt ? (
      <>
        Mixed <Day on={mixedAt} />.
      </>
    ) : null}
  </>
);

const Step = ({ name, children }: { name: string; children?: Child }) =>
  children === null || children === undefined || children === "" ? null : (
    <li>
      <strong>{name}:</strong> {children}
    </li>
  );
