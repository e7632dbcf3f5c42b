import type { Child } from "hono/jsx";

/** A line of a firing's facts. */
export const Fact = ({ name, children }: { name: string; children?: Child }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);
