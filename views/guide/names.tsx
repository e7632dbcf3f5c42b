import { Choice } from "../parts/field.tsx";

export type ShownEntry = {
  slug: string;
  name: string;
  region: string;
  names: readonly { name: string; region: string; caution: string }[];
  lookAlikes: readonly {
    word: string;
    slug: string;
    name: string;
    region: string;
    caution: string;
  }[];
};

type GuideNamesProps = {
  items: readonly ShownEntry[];
  regions: readonly string[];
  region: string | undefined;
};

/** What the studio's powders are called where, and what not to buy under the same word. */
export const GuideNames = ({ items, regions, region }: GuideNamesProps) => (
  <article>
    <h1>Names of powders by region</h1>
    <p>
      The same powder has other names elsewhere, and the same word can mean another powder. Compare
      the supplier's analysis and safety data sheet with the ones here before you buy or weigh: a
      name alone settles nothing.
    </p>
    {regions.length === 0 ? null : (
      <search>
        <form class="narrowing" method="get" action="/guide/names">
          <Choice
            label="Region"
            name="region"
            value={region ?? ""}
            options={[
              { value: "", label: "all regions" },
              ...regions.map((each) => ({ value: each, label: each })),
            ]}
          />
          <button type="submit">Show these</button>
        </form>
      </search>
    )}
    {items.length === 0 ? (
      <Nothing region={region} />
    ) : (
      <dl class="names-by-region">
        {items.map((entry) => (
          <Entry entry={entry} />
        ))}
      </dl>
    )}
    <p>
      <a href="/guide">All pages of the guide</a>
    </p>
  </article>
);

const Entry = ({ entry }: { entry: ShownEntry }) => (
  <div>
    <dt>
      <a href={`/materials/${entry.slug}`}>{entry.name}</a> here
      {entry.region ? ` (${entry.region})` : ""}
    </dt>
    {entry.names.map(({ name, region, caution }) => (
      <dd>
        <strong>{name}</strong> in {region}. {caution}
      </dd>
    ))}
    {entry.names.length === 0 ? <dd>No other name of it is on record.</dd> : null}
    {entry.lookAlikes.map((other) => (
      <dd class="names-not">
        <strong>Do not buy by the word “{other.word}”:</strong> it is also a name of{" "}
        <a href={`/materials/${other.slug}`}>{other.name}</a>
        {other.region ? ` in ${other.region}` : " here"}. {other.caution}
      </dd>
    ))}
  </div>
);

const Nothing = ({ region }: { region: string | undefined }) =>
  region ? (
    <p>
      No powder of the studio has a name in {region} on record.{" "}
      <a href="/guide/names">Show all regions</a>
    </p>
  ) : (
    <p>No powder is on the shelf yet. Its names appear here as soon as somebody puts one there.</p>
  );
