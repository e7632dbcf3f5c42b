import { When } from "../people/when.tsx";
import type { EventLine } from "./about.tsx";
import { EventWords } from "./event-words.tsx";

type RecordProps = {
  events: readonly EventLine[];
  next: string | null;
  /** The number of the latest event of all. */
  latest: number;
  perPage: number;
};

/** What happened in the studio, in the order in which it did. */
export const StudioRecord = ({ events, next, latest, perPage }: RecordProps) => (
  <section>
    <h1>Record</h1>
    <p>
      What was changed here, by whom and when, oldest first. Nothing is ever taken out: each line
      holds the digest of the one before.
    </p>
    <Turning latest={latest} perPage={perPage} next={next} />
    {events.length === 0 ? (
      <p>Nothing here.</p>
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
    <Turning latest={latest} perPage={perPage} next={next} />
  </section>
);

const Turning = ({ latest, perPage, next }: Omit<RecordProps, "events">) =>
  latest <= perPage ? null : (
    <p class="actions">
      <a class="button quiet" href="/events">
        From the start
      </a>
      {next === null ? null : (
        <a class="button quiet" href={`/events?after=${next}`}>
          Later ones
        </a>
      )}
      <a class="button quiet" href={`/events?after=${latest - perPage}`}>
        The latest {perPage}
      </a>
    </p>
  );
