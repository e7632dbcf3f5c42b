import { type Fault, FaultSummary, Field, faultAt } from "../parts/field.tsx";

type Saved = { id: string; name: string; query: string };

/** Somebody's own searches, each a way to what it finds now. */
export const SavedSearches = ({ searches }: { searches: readonly Saved[] }) =>
  searches.length === 0 ? null : (
    <nav class="saved-searches" aria-label="Your searches">
      <p>
        Your searches:{" "}
        {searches.map(({ name, query }, place) => (
          <>
            {place > 0 ? ", " : ""}
            <a href={`/recipes?${query}`}>{name}</a>
          </>
        ))}{" "}
        (<a href="/searches">change these</a>)
      </p>
    </nav>
  );

type SaveProps = {
  query: string;
  idempotencyKey: string;
  name?: string | undefined;
  faults?: readonly Fault[] | undefined;
};

/** Keeps the search that is shown under a name. */
export const SaveSearch = ({ query, idempotencyKey, name, faults = [] }: SaveProps) => (
  <form class="save-search" method="post" action="/searches">
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <input type="hidden" name="query" value={query} />
    <Field
      label="Keep this search as"
      name="name"
      value={name}
      maxlength={80}
      required
      fault={faultAt(faults, "name")}
    />
    <button type="submit" class="quiet">
      Keep it
    </button>
  </form>
);

type PageProps = {
  searches: readonly Saved[];
  faults: readonly Fault[];
  typed: Readonly<Record<string, unknown>>;
  idempotencyKey: string;
};

/** All that somebody keeps, to open and to delete. */
export const SavedSearchesPage = ({ searches, faults, typed, idempotencyKey }: PageProps) => (
  <section>
    <h1>Your searches</h1>
    <FaultSummary faults={faults} />
    {typeof typed.query === "string" ? (
      <SaveSearch
        query={typed.query}
        name={typeof typed.name === "string" ? typed.name : undefined}
        idempotencyKey={idempotencyKey}
        faults={faults}
      />
    ) : null}
    {searches.length === 0 ? (
      <p>
        You keep none yet. Narrow <a href="/recipes">the library</a> down, then keep the search from
        the foot of its page.
      </p>
    ) : (
      <table>
        <caption>By name; nobody else sees them</caption>
        <thead>
          <tr>
            <th scope="col">Search</th>
            <th scope="col">Delete</th>
          </tr>
        </thead>
        <tbody>
          {searches.map(({ id, name, query }) => (
            <tr>
              <th scope="row">
                <a href={`/recipes?${query}`}>{name}</a>
              </th>
              <td>
                <form method="post" action={`/searches/${id}/end`}>
                  <button type="submit" class="quiet">
                    Delete<span class="hidden-words"> {name}</span>
                  </button>
                </form>
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    )}
  </section>
);
