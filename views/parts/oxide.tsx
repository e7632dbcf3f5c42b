import { Term } from "./term.tsx";

type OxideNameProps = { oxide: string; explain?: boolean | undefined; role?: string | undefined };

/**
 * An oxide as it is written, its numbers set low. With `explain`, a press on it tells `role`: what
 * it does in a glaze.
 */
export const OxideName = ({ oxide, explain, role }: OxideNameProps) =>
  explain && role ? (
    <Term means={role} id={`means-${oxide}`}>
      <Formula oxide={oxide} />
    </Term>
  ) : (
    <Formula oxide={oxide} />
  );

const Formula = ({ oxide }: { oxide: string }) => (
  <span class="oxide">
    {(oxide.match(/\d+|\D+/g) ?? []).map((part) => (/^\d/.test(part) ? <sub>{part}</sub> : part))}
  </span>
);
