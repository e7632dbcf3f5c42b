import { When } from "../people/when.tsx";
import type { EventLine } from "./about.tsx";
import { EventWords } from "./event-words.tsx";
import { type AskedOfRecord, RecordSearch } from "./search.tsx";

type RecordProps = {
  events: readonly EventLine[];
  next: string | null;
  /** The number of the latest event of all. */
  latest: number;
  newestFirst: boolean;
  asked: AskedOfRecord;
  doers: readonly { id: string; name: string }[];
  subjects: readonly string[];
};

/** What happened in the studio, newest first, as far as it was asked for. */
export const StudioRecord = ({ events, doers, subjects, ...turning }: RecordProps) => (
  <section>
    <h1>Record</h1>
    <p>
      What was changed here, by whom and when
      {turning.newestFirst ? ", newest first" : ", in the order in which it was"}. Nothing is ever
      taken out: each line holds the digest of the one before.
    </p>
    <RecordSearch asked={turning.asked} doers={doers} subjects={subjects} />
    {events.length === 0 ? (
      <p>{turning.latest === 0 ? "Nothing has happened yet." : "Nothing like that is here."}</p>
    ) : (
      <ol class="findings">
        {events.map((event) => (
          <li class="finding">
            <span>No. {event.seq}</span>
            <span>
              {event.by ? event.by.name : "The program"} <EventWords event={event} />.
              <br />
              <When at={event.at} clock />
            </span>
          </li>
        ))}
      </ol>
    )}
    <Turning {...turning} />
  </section>
);

type TurningProps = Pick<RecordProps, "next" | "newestFirst" | "asked">;

/** The way to further events keeps what was asked for. */
const Turning = ({ next, newestFirst, asked }: TurningProps) => {
  const at = (cursor: Record<string, string>) => {
    const kept = Object.entries({ ...asked, ...cursor }).filter(([, value]) => value !== undefined);
    return `/events?${new URLSearchParams(kept as [string, string][])}`;
  };
  return (
    <p class="actions">
      {next === null ? null : (
        <a class="button quiet" href={at(newestFirst ? { before: next } : { after: next })}>
          {newestFirst ? "Earlier ones" : "Later ones"}
        </a>
      )}
      {newestFirst ? (
        <a class="button quiet" href={at({ after: "0" })}>
          From the start
        </a>
      ) : (
        <a class="button quiet" href={at({})}>
          The latest
        </a>
      )}
    </p>
  );
};
