const day = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" });
const clock = new Intl.DateTimeFormat("en-GB", { timeStyle: "short", timeZone: "UTC" });

type WhenProps = { at: Date; clock?: boolean | undefined };

/** A day, with the time of day where it matters. Times are UTC, and say so. */
export const When = ({ at, clock: withClock }: WhenProps) => (
  <time datetime={at.toISOString()}>
    {day.format(at)}
    {withClock ? `, ${clock.format(at)} UTC` : null}
  </time>
);
