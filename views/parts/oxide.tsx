import { Term } from "./term.tsx";

type OxideNameProps = {
  oxide: string;
  explain?: boolean | undefined;
  role?: string | undefined;
  of?: string | undefined;
};

/**
 * An oxide as it is written, its numbers set low. With `explain`, a press on it tells `role`: what
 * it does in a glaze.
 *
 * @param of whose oxide it is, where a page explains the same one more than once.
 */
export const OxideName = ({ oxide, explain, role, of }: OxideNameProps) =>
  explain && role ? (
    <Term guide="unity-formula#oxides" means={role} id={idOf(oxide, of)}>
      <Formula oxide={oxide} />
    </Term>
  ) : (
    <Formula oxide={oxide} />
  );

const idOf = (oxide: string, of: string | undefined): string =>
  `means-${oxide}${of ? `-${of.replace(/[^A-Za-z0-9]+/g, "-")}` : ""}`;

const Formula = ({ oxide }: { oxide: string }) => (
  <span class="oxide">
    {(oxide.match(/\d+|\D+/g) ?? []).map((part) => (/^\d/.test(part) ? <sub>{part}</sub> : part))}
  </span>
);
