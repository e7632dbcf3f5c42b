import type { ShownCode } from "./types.ts";

type CodeProps = { code: ShownCode; means: string };

/** A code to be read with a phone, dark on white whatever the page's colours are. */
export const Code = ({ code: { modules, path }, means }: CodeProps) => (
  <svg class="label-code" viewBox={`0 0 ${modules} ${modules}`} role="img" aria-label={means}>
    <rect width={modules} height={modules} class="label-code-light" />
    <path d={path} class="label-code-dark" />
  </svg>
);
