import { type CalledThere, pageReading } from "./reading.ts";

/** What the studio calls it, in the reader's region, where it has another name there. */
const there = (name: string): CalledThere | undefined => pageReading().called.get(name);

/** A powder as it is called in the reader's region, with the studio's own name in brackets. */
export const PowderName = ({ name }: { name: string }) => {
  const called = there(name);
  return (
    <>
      {called?.name ?? name}
      {called ? <span class="own-name"> ({name})</span> : null}
    </>
  );
};

/** The same as words: "Flint (Quartz)". */
export const powderName = (name: string): string => {
  const called = there(name);
  return called ? `${called.name} (${name})` : name;
};

/** What to beware of with the words of the reader's region, once for all powders of a table. */
export const LookAlikes = ({ names }: { names: readonly string[] }) => {
  const beware = [...new Set(names)].flatMap((name) => {
    const called = there(name);
    return called && (called.caution !== "" || called.lookAlikes.length > 0)
      ? [{ ...called, own: name }]
      : [];
  });
  return beware.length === 0 ? null : (
    <ul class="look-alikes">
      {beware.map(({ name, own, caution, lookAlikes }) => (
        <li>
          <strong>
            “{name}” here is {own}
            {lookAlikes.length > 0 ? `, and not ${lookAlikes.join(" or ")}` : ""}.
          </strong>{" "}
          {caution}
        </li>
      ))}
    </ul>
  );
};
