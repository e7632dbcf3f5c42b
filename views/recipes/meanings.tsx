export type Meaning = {
  typed: string;
  is: "exact" | "part" | "begins" | "like" | "common" | "unknown";
  materials: readonly {
    slug: string;
    name: string;
    called: readonly { name: string; region: string }[];
  }[];
  makers: readonly { id: string; name: string }[];
  /** What it may have been meant for, and the search with that in its place. */
  instead: readonly { says: string; href: string }[];
  /** The search without it, where it means nothing here. */
  without: string | undefined;
};

/** How each word was understood, where that is more than the word itself. */
export const Meanings = ({ meanings }: { meanings: readonly Meaning[] }) => {
  const told = meanings.filter(isWorthTelling);
  return told.length === 0 ? null : (
    <ul class="meanings" aria-label="How your words were understood">
      {told.map((meaning) => (
        <li>
          <Told meaning={meaning} />
        </li>
      ))}
    </ul>
  );
};

const isWorthTelling = ({ is, materials, makers }: Meaning): boolean =>
  is === "like" || is === "unknown" || is === "common" || materials.length + makers.length > 0;

const Told = ({ meaning }: { meaning: Meaning }) => {
  switch (meaning.is) {
    case "unknown":
      return (
        <>
          Nothing here is called “{meaning.typed}” or anything like it.{" "}
          {meaning.without ? <a href={meaning.without}>Search without it</a> : null}
        </>
      );
    case "common":
      return <>“{meaning.typed}” is left out: nearly every text has it.</>;
    case "like":
      return (
        <>
          Nothing here is called “{meaning.typed}”. Did you mean{" "}
          {meaning.instead.map(({ says, href }, place) => (
            <>
              {place > 0 ? " or " : ""}
              <a href={href}>{says}</a>
            </>
          ))}
          ? These are glazes with that. <Named meaning={meaning} />
        </>
      );
    default:
      return (
        <>
          “{meaning.typed}”: <Named meaning={meaning} />
        </>
      );
  }
};

/** How many are named before the rest is only counted. */
const few = 4;

const Named = ({ meaning: { materials, makers } }: { meaning: Meaning }) => (
  <>
    {materials.slice(0, few).map(({ slug, name, called }, place) => (
      <>
        {place > 0 ? "; " : ""}
        <a href={`/materials/${encodeURIComponent(slug)}`}>{name}</a>
        {called.length > 0 ? `, also called ${called.slice(0, few).map(elsewhere).join(", ")}` : ""}
      </>
    ))}
    {materials.length > few ? ` and ${materials.length - few} more powders` : ""}
    {materials.length > 0 ? ". " : ""}
    {makers.length > 0
      ? `Made by ${makers
          .slice(0, few)
          .map(({ name }) => name)
          .join(" or ")}.`
      : ""}
  </>
);

const elsewhere = ({ name, region }: { name: string; region: string }): string =>
  region === "" ? name : `${name} (${region})`;
