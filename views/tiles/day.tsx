const long = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" });

/** A calendar day such as `2026-03-01`, as people write it: 1 March 2026. */
export const Day = ({ on }: { on: string }) => (
  <time datetime={on}>{long.format(new Date(on))}</time>
);

/** The day of a moment, in UTC. */
export const DayOf = ({ at }: { at: Date }) => <Day on={at.toISOString().slice(0, 10)} />;
