import type { Child } from "hono/jsx";
import type { NumberName } from "../../src/chem/account.ts";
import { numberWords } from "../numbers/words.ts";

/**
 * Where a number on a page leads: to the page that tells where it comes from, or, in a form where
 * nothing is stored, to the form itself, which comes back with the answer. `query` holds the
 * conventions that the reader chose, with its question mark.
 */
export type AskAt = { address: string; query?: string | undefined } | "form";

type AskedProps = { at: AskAt | undefined; name: NumberName; children?: Child };

/** A computed number that can be asked where it comes from; it is read out with its name. */
export const Asked = ({ at, name, children }: AskedProps) => {
  if (at === undefined) return <>{children}</>;
  const said = (
    <>
      <span class="hidden-words">{numberWords(name)}, </span>
      {children}
      <span class="hidden-words">: where it comes from</span>
    </>
  );
  return at === "form" ? (
    <button type="submit" class="asked" name="change" value={`ask-${name}`}>
      {said}
    </button>
  ) : (
    <a class="asked" href={`${at.address}/${name}${at.query ?? ""}`}>
      {said}
    </a>
  );
};
