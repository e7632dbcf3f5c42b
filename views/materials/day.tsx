const long = new Intl.DateTimeFormat("en-GB", { dateStyle: "long", timeZone: "UTC" });

/** A calendar day such as 2026-03-01, or the day of a moment, in words. */
export const Day = ({ on }: { on: string | Date }) => {
  const day = typeof on === "string" ? on : on.toISOString().slice(0, 10);
  return <time datetime={day}>{long.format(new Date(`${day}T00:00:00Z`))}</time>;
};
