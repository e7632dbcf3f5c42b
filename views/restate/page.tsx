import { DustCaution } from "../parts/cautions.tsx";
import { Term } from "../parts/term.tsx";
import { RestatedGlaze } from "./answer.tsx";
import { RestateForm } from "./form.tsx";
import type { RestatePageProps } from "./types.ts";

/** A glaze and a shelf in, the same glaze from that shelf out, or the nearest; nothing is stored. */
export const RestatePage = ({ found, idempotencyKey, ...form }: RestatePageProps) => (
  <article>
    <h1>Restate a glaze</h1>
    <p>
      The same{" "}
      <Term
        guide="unity-formula#moles"
        means="The glaze counted in moles, with all its fluxes together set to one. Two glazes are alike when these figures are, whatever powders they came from."
      >
        unity formula
      </Term>{" "}
      from the materials that you have, or the nearest to it, and why it comes no nearer. No account
      is needed and nothing is stored.
    </p>
    {found ? (
      <RestatedGlaze found={found} member={form.member} idempotencyKey={idempotencyKey} />
    ) : null}
    <RestateForm {...form} />
    <DustCaution />
  </article>
);
