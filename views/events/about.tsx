import type { Child } from "hono/jsx";

export type EventLine = {
  seq: number;
  at: Date;
  by: { name: string } | null;
  kind: string;
  subject: string;
  about: { name: string; href: string | null } | null;
  detail: Record<string, unknown>;
};

/** What an event is about, with the way to its page where it has one. */
export const About = ({ event: { about, subject } }: { event: EventLine }) => {
  if (!about) return <span>a {subject}</span>;
  return about.href ? <a href={about.href}>{about.name}</a> : <span>{about.name}</span>;
};

/** A fixed word or a number of an event's detail. */
export const word = (value: unknown): string => (value === null ? "none" : String(value));

export type Sentence = (event: EventLine) => Child;

/** For a kind whose sentence is some words and what they are about. */
export const about =
  (before: string, after = ""): Sentence =>
  (event) => (
    <>
      {before} <About event={event} />
      {after}
    </>
  );
