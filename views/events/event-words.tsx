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

/** What happened, in words that follow whoever did it. A kind without words here is shown as it is. */
export const EventWords = ({ event }: { event: EventLine }) => {
  const words = sentences[`${event.subject}: ${event.kind}`];
  return words ? <span>{words(event)}</span> : <Bare event={event} />;
};

const sentences: Partial<Record<string, (event: EventLine) => Child>> = {
  "invite: invited": ({ detail }) => <>made a link by which a {word(detail.role)} can join</>,
  "invite: invite revoked": () => <>ended a link to join that nobody had used</>,
  "person: joined": ({ detail }) => <>joined the studio as {word(detail.role)}</>,
  "person: role changed": (event) => (
    <>
      made <About event={event} /> {word(event.detail.to)} instead of {word(event.detail.from)}
      {Number(event.detail.invitesRevoked) > 0 ? "; unused links made by them ended" : ""}
    </>
  ),
  "person: password changed": ({ detail }) => (
    <>changed their password{endedSessions(detail.sessionsEnded)}</>
  ),
  "person: sessions ended": ({ detail }) => (
    <>
      signed out{" "}
      {Number(detail.sessionsEnded) === 1
        ? "another browser"
        : `${word(detail.sessionsEnded)} other browsers`}{" "}
      of theirs
    </>
  ),
  "person: removed": (event) => (
    <>
      removed a person, now <About event={event} />
    </>
  ),
  "note: removed": (event) => (
    <>
      removed the words of a note on <About event={event} />
    </>
  ),
  "photo: removed": (event) => (
    <>
      removed a picture from a tile of <About event={event} />
    </>
  ),
};

const endedSessions = (ended: unknown): string =>
  Number(ended) > 0
    ? `, which signed out ${Number(ended) === 1 ? "one other browser" : `${ended} other browsers`}`
    : "";

const Bare = ({ event }: { event: EventLine }) => (
  <>
    {event.kind} ({event.subject})
    {event.about ? (
      <>
        : <About event={event} />
      </>
    ) : null}
    {Object.keys(event.detail).length === 0 ? null : (
      <>
        {"; "}
        {Object.entries(event.detail)
          .map(([key, value]) => `${key} ${word(value)}`)
          .join(", ")}
      </>
    )}
  </>
);

const About = ({ event: { about, subject } }: { event: EventLine }) => {
  if (!about) return <span>a {subject}</span>;
  return about.href ? <a href={about.href}>{about.name}</a> : <span>{about.name}</span>;
};

const word = (value: unknown): string => (value === null ? "none" : String(value));
