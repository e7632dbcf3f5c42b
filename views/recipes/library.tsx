import { ConeHeat } from "../parts/cone-heat.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { type RecipeStrip, RecipeStrips } from "../parts/recipe-strip.tsx";
import { type AskedOf, type Counts, FindForm } from "./find-form.tsx";
import { InForce, type Narrowed } from "./in-force.tsx";
import { type Meaning, Meanings } from "./meanings.tsx";
import { SavedSearches, SaveSearch } from "./saved-searches.tsx";

type Strip = Omit<RecipeStrip, "maker" | "revision" | "picture"> & {
  owner: { name: string };
  number: number;
  approved: { number: number; for: "functional" | "decorative" } | null;
  picture: { sha256: string; alt: string } | null;
};

type LibraryPageProps = {
  strips: readonly Strip[];
  asked: AskedOf;
  /** What narrows it, each with the address of the list without it. */
  inForce: readonly Narrowed[];
  meanings: readonly Meaning[];
  counts?: Counts | undefined;
  faults: readonly Fault[];
  next: string | undefined;
  mayAdd: boolean;
  mayTakeIn: boolean;
  /** Somebody's own searches. */
  saved: readonly { id: string; name: string; query: string }[];
  /** This search, as it is kept; none where it asks for nothing. */
  query: string | undefined;
  idempotencyKey: string;
};

/** The library as a list, with what narrows it down in the address. */
export const LibraryPage = (props: LibraryPageProps) => {
  const { strips, asked, inForce, meanings, counts, faults, next, mayAdd, saved, query } = props;
  return (
    <section>
      <h1>Library</h1>
      <p class="first-minute">
        New here? <a href="/start">What are you making?</a>
      </p>
      <p class="actions">
        {mayAdd ? (
          <a class="button" href="/recipes/new">
            Publish a recipe
          </a>
        ) : null}
        <a class="button quiet" href="/tiles">
          Tiles: find by picture
        </a>
        <a class="button quiet" href="/families">
          Families
        </a>
        {props.mayTakeIn ? (
          <a class="button quiet" href="/imports/new">
            Take in recipes or analyses
          </a>
        ) : null}
      </p>
      <FaultSummary faults={faults} />
      <FindForm asked={asked} counts={counts} faults={faults} mayAdd={mayAdd} />
      {mayAdd ? <SavedSearches searches={saved} /> : null}
      {faults.length > 0 ? null : (
        <>
          <Meanings meanings={meanings} />
          <InForce narrowed={inForce} all={counts?.all} />
          <Found strips={strips} asked={asked} narrowed={inForce.length > 0} mayAdd={mayAdd} />
          {next ? (
            <p>
              <a class="button" href={next} rel="next">
                More glazes
              </a>
            </p>
          ) : null}
          {mayAdd && query ? (
            <SaveSearch query={query} idempotencyKey={props.idempotencyKey} />
          ) : null}
        </>
      )}
    </section>
  );
};

type FoundProps = Pick<LibraryPageProps, "strips" | "asked" | "mayAdd"> & { narrowed: boolean };

const Found = ({ strips, asked, narrowed, mayAdd }: FoundProps) =>
  strips.length === 0 ? (
    <Nothing narrowed={narrowed} further={asked.after !== undefined} mayAdd={mayAdd} />
  ) : (
    <>
      <RecipeStrips
        caption={captionOf(asked, narrowed)}
        recipes={strips.map(({ owner, number, picture, ...strip }) => ({
          ...strip,
          maker: owner.name,
          revision: number,
          picture: picture ?? undefined,
        }))}
      />
      <p>
        <ConeHeat cones={strips.flatMap((strip) => [strip.cones.low, strip.cones.high])} />
      </p>
    </>
  );

/** In which order they stand. */
function captionOf(asked: AskedOf, narrowed: boolean): string {
  if (asked.colour) return "Glazes that fit, the nearest in colour first";
  if (asked.q) return "Glazes that fit, the best first";
  const order = "approved for functional ware first, then by name";
  return narrowed ? `Glazes that fit: ${order}` : `All glazes: ${order}`;
}

type NothingProps = { narrowed: boolean; further: boolean; mayAdd: boolean };

const Nothing = ({ narrowed, further, mayAdd }: NothingProps) => {
  if (further) return <p>There are no glazes after these.</p>;
  if (narrowed)
    return (
      <p>
        No glaze fits all of that. Take something off above, or <a href="/recipes">show all</a>.
      </p>
    );
  return (
    <p>
      The library is empty.{" "}
      {mayAdd
        ? "Put the powders on the shelf first, then publish a recipe from them."
        : "Its first recipe appears here as soon as somebody publishes one."}
    </p>
  );
};
