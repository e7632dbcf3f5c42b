/** What a form shows again: the text typed at a path such as `oxides.SiO2.percent`, or none. */
export type Typed = (path: string) => string;

/** What there is to put right. */
export type Faults = readonly { path: string; says: string }[];

export const faultAt = (faults: Faults, path: string): string | undefined =>
  faults.find((fault) => fault.path === path)?.says;
