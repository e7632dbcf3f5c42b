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
        <strong>{name}</strong>: the studio's own name for it{region ? `, as in ${region}` : ""}.
      </li>
      {names.map((elsewhere) => (
        <li>
          <strong>{elsewhere.name}</strong> in {elsewhere.region}.{" "}
          {elsewhere.caution === "" ? null : <span>{elsewhere.caution}</span>}
          {mayManage ? (
            <form method="post" action={`/materials/${slug}/names/${elsewhere.id}/removal`}>
              <button class="quiet" type="submit">
                Remove “{elsewhere.name}”
              </button>
            </form>
          ) : null}
        </li>
      ))}
    </ul>
    {lookAlikes.length > 0 ? <LookAlikes name={name} lookAlikes={lookAlikes} /> : null}
    {mayAdd ? (
      <p class="actions">
        <a class="button quiet" href={`/materials/${slug}/names/new`}>
          Add what it is called elsewhere
        </a>
      </p>
    ) : null}
  </>
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
          “{other.word}” is {other.region ? `in ${other.region} ` : ""}also a name of{" "}
          <a href={`/materials/${other.slug}`}>{other.name}</a>. {other.caution}
        </li>
      ))}
    </ul>
  </section>
);
