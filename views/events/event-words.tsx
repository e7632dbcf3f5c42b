import { About, type EventLine, word } from "./about.tsx";
import { sentences } from "./sentences.tsx";

/** What happened, in words that follow whoever did it. A kind without words is shown as it is. */
export const EventWords = ({ event }: { event: EventLine }) => {
  const sentence = sentences[`${event.subject}: ${event.kind}`];
  return sentence ? <span>{sentence(event)}</span> : <Bare event={event} />;
};

const Bare = ({ event }: { event: EventLine }) => (
  <span>
    {event.kind} ({event.subject})
    {event.about ? (
      <>
        : <About event={event} />
      </>
    ) : null}
    {Object.entries(event.detail).map(([key, value]) => `; ${key} ${word(value)}`)}
  </span>
);
