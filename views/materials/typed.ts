/** What a form shows again: the text typed at a path such as `oxides.SiO2.percent`, or none. */
export type Typed = (path: string) => string;

/** What there is to put right. */
export type Faults = readonly { path: string; says: string }[];

export { faultAt } from "../parts/field.tsx";
