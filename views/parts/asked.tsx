import type { Child } from "hono/jsx";

/**
 * Where a number on a page leads: to the page that tells where it comes from, or, in a form where
 * nothing is stored, to the form itself, which comes back with the answer.
 */
export type AskAt = { address: string } | "form";

type AskedProps = { at: AskAt | undefined; name: string; children?: Child };

/** A computed number that can be asked where it comes from. */
export const Asked = ({ at, name, children }: AskedProps) => {
  if (at === undefined) return <>{children}</>;
  const words = <span class="hidden-words">: where it comes from</span>;
  return at === "form" ? (
    <button type="submit" class="asked" name="change" value={`ask-${name}`}>
      {children}
      {words}
    </button>
  ) : (
    <a class="asked" href={`${at.address}/${name}`}>
      {children}
      {words}
    </a>
  );
};
