import { When } from "../people/when.tsx";
import { coneNamed } from "../tiles/cone-words.ts";
import { kindWords, witnessWords } from "./firing-words.ts";
import type { Firing } from "./types.ts";

type FiringRowsProps = {
  firings: readonly Firing[];
  /** Where the next page is, or null on the last. */
  next: string | null;
};

/** Firings one below the other, newest first, each with what its witness cones say. */
export const FiringRows = ({ firings, next }: FiringRowsProps) => (
  <>
    {firings.length === 0 ? (
      <p>No firing is on record here.</p>
    ) : (
      <ul class="history">
        {firings.map((firing) => (
          <Row firing={firing} />
        ))}
      </ul>
    )}
    {next ? (
      <p>
        <a href={next}>Earlier firings</a>
      </p>
    ) : null}
  </>
);

const Row = ({ firing }: { firing: Firing }) => (
  <li>
    {firing.withdrawn ? (
      <s>
        <FiringLink firing={firing} />
      </s>
    ) : (
      <FiringLink firing={firing} />
    )}
    <span class="history-message">
      {kindWords(firing)}; started <When at={firing.startedAt} clock />.
    </span>
    <span class="history-message">{cameTo(firing)}</span>
  </li>
);

function cameTo({ withdrawn, witness }: Firing): string {
  if (withdrawn) return "Withdrawn: its cones witness nothing.";
  return witness.length === 0
    ? "No witness cone on record."
    : `Witness cones: ${witnessWords(witness)}.`;
}

const FiringLink = ({ firing: { id, kiln, cone } }: { firing: Firing }) => (
  <a class="kiln-link" href={`/firings/${id}`}>
    {kiln.name}, {coneNamed(cone)}
  </a>
);
