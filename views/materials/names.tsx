export type NamesProps = {
  slug: string;
  name: string;
  region: string;
  names: readonly { id: string; name: string; region: string; caution: string }[];
  lookAlikes: readonly {
    word: string;
    slug: string;
    name: string;
    region: string | null;
    caution: string;
  }[];
  mayAdd: boolean;
  mayManage: boolean;
};

/** What the powder is called where, which to buy under each word, and what shares a word with it. */
export const Names = ({ slug, name, region, names, lookAlikes, mayAdd, mayManage }: NamesProps) => (
  <>
    <h2>What to ask for</h2>
    <ul>
      <li>
        <strong>{name}</strong>: the studio's own name for it{region ? ` (${region})` : ""}.
      </li>
      {names.map((elsewhere) => (
        <li>
          <strong>{elsewhere.name}</strong> in {elsewhere.region}.{" "}
          {elsewhere.caution === "" ? null : <span>{elsewhere.caution}</span>}
        </li>
      ))}
    </ul>
    {lookAlikes.length > 0 ? <LookAlikes name={name} lookAlikes={lookAlikes} /> : null}
    {mayManage && names.length > 0 ? <Removals slug={slug} names={names} /> : null}
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href={`/materials/${slug}/names/new`}>
          Add what it is called elsewhere
        </a>
      </p>
    ) : null}
  </>
);

const Removals = ({ slug, names }: Pick<NamesProps, "slug" | "names">) => (
  <details class="screen-only">
    <summary>Take a name off</summary>
    {names.map(({ id, name, region }) => (
      <form class="actions" method="post" action={`/materials/${slug}/names/${id}/removal`}>
        <button class="quiet" type="submit">
          Remove “{name}” ({region})
        </button>
      </form>
    ))}
  </details>
);

const LookAlikes = ({ name, lookAlikes }: Pick<NamesProps, "name" | "lookAlikes">) => (
  <section class="caution" aria-label="Look-alikes">
    <p>
      <strong>One word, two powders.</strong> Do not buy or weigh by the word alone: it may bring
      the other powder instead of {name}.
    </p>
    <ul>
      {lookAlikes.map((other) => (
        <li>
          “{other.word}” is also a name of <a href={`/materials/${other.slug}`}>{other.name}</a>
          {other.region ? ` (${other.region})` : ""}. {other.caution}
        </li>
      ))}
    </ul>
  </section>
);
