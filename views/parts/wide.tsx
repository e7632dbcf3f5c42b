import type { Child } from "hono/jsx";

/** A room for a table that is wider than a phone: it scrolls by itself, by finger or arrow keys. */
export const Wide = ({ label, children }: { label: string; children?: Child }) => (
  <section class="wide" aria-label={label} tabindex={0}>
    {children}
  </section>
);
