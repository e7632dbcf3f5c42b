import { Cautions, DustCaution } from "../parts/cautions.tsx";
import { Findings } from "../parts/findings.tsx";
import { hazards } from "../parts/hazard-words.ts";
import type { MixPageProps } from "./types.ts";

/** What to know before a bag is opened: water, sieve, and what the powders do to people. */
export const Before = ({ mix, lines, handling, directions }: MixPageProps) => {
  const named = new Set(lines.flatMap(({ material }) => material.hazards));
  return (
    <section id="before">
      <h2>Before you weigh</h2>
      <p class="mix-water">
        {mix.waterGrams ? (
          <>
            <strong>Water: {mix.waterGrams.toFixed()} g,</strong> into the bucket first, and the
            powders onto it: that makes less dust.
          </>
        ) : (
          <>
            This batch was asked for by weight, so nobody worked out its water. Powders go onto
            water: that makes less dust.
          </>
        )}
      </p>
      <p>{sieveWords(directions)}</p>
      {handling.length > 0 ? <Findings findings={handling} /> : null}
      <Cautions hazards={hazards.filter((hazard) => hazard !== "dust" && named.has(hazard))} />
      <DustCaution />
    </section>
  );
};

/** Eighty mesh where nobody wrote otherwise: common practice, no source. */
function sieveWords(directions: MixPageProps["directions"]): string {
  const { sieve, stirring, keepsMonths } = directions ?? {
    sieve: "",
    stirring: "",
    keepsMonths: null,
  };
  return [
    sieve ? `Sieve: ${sieve}.` : "Sieve it twice at 80 mesh, unless the recipe says otherwise.",
    stirring ? `Stirring: ${stirring}.` : "Stir it up from the bottom before each use.",
    keepsMonths ? `It keeps for ${keepsMonths} months.` : "",
  ]
    .filter(Boolean)
    .join(" ");
}
