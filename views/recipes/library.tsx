import { cones } from "../../src/chem/cones.ts";
import { ConeHeat } from "../parts/cone-heat.tsx";
import { Choice, Field } from "../parts/field.tsx";
import { type RecipeStrip, RecipeStrips } from "../parts/recipe-strip.tsx";
import { coneInShort } from "../tiles/cone-words.ts";

type Strip = Omit<RecipeStrip, "maker" | "revision" | "picture"> & {
  owner: { name: string };
  number: number;
  approved: { number: number; for: "functional" | "decorative" } | null;
  picture: { sha256: string; alt: string } | null;
};

type LibraryPageProps = {
  strips: readonly Strip[];
  search: {
    q?: string | undefined;
    cone?: string | undefined;
    use?: string | undefined;
    standing?: string | undefined;
    surface?: string | undefined;
    atmosphere?: string | undefined;
    stocked?: "1" | undefined;
  };
  next: string | undefined;
  mayAdd: boolean;
};

/** The library as a list, with what narrows it down in the address. */
export const LibraryPage = ({ strips, search, next, mayAdd }: LibraryPageProps) => {
  const narrowed = Object.values(search).some((value) => value !== undefined);
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
      </p>
      <Narrowing search={search} mayAdd={mayAdd} />
      {strips.length === 0 ? (
        <Nothing narrowed={narrowed} mayAdd={mayAdd} />
      ) : (
        <>
          <RecipeStrips
            caption={narrowed ? "Glazes that fit" : "All glazes, by name"}
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
      )}
      {next ? (
        <p>
          <a class="button" href={next} rel="next">
            More glazes
          </a>
        </p>
      ) : null}
    </section>
  );
};

const any = { value: "", label: "any" };

const Narrowing = ({ search, mayAdd }: Pick<LibraryPageProps, "search" | "mayAdd">) => (
  <search>
    <form class="narrowing" method="get" action="/recipes">
      <Field
        label="Name, maker or material"
        name="q"
        type="search"
        value={search.q}
        maxlength={100}
      />
      <Choice label="Cone" name="cone" value={search.cone} options={[any, ...coneOptions]} />
      <Choice label="Use" name="use" value={search.use} options={[any, ...uses]} />
      <Choice
        label="Standing"
        name="standing"
        value={search.standing}
        options={[any, ...standingOptions]}
      />
      <Choice
        label="Atmosphere"
        name="atmosphere"
        value={search.atmosphere}
        options={[any, ...atmospheres]}
      />
      <Field label="Surface" name="surface" value={search.surface} maxlength={60} />
      {mayAdd ? (
        <label class="tick">
          <input type="checkbox" name="stocked" value="1" checked={search.stocked === "1"} />
          In a bucket that may be used now
        </label>
      ) : null}
      <button type="submit">Show these</button>
    </form>
  </search>
);

const standingOptions = ["draft", "in review", "approved", "needs another look", "withdrawn"].map(
  (word) => ({ value: word, label: word }),
);

const coneOptions = cones.map((cone) => ({ value: cone, label: coneInShort(cone) }));

const uses = [
  { value: "functional", label: "meant for functional ware" },
  { value: "decorative", label: "decorative only" },
];

const atmospheres = ["oxidation", "neutral", "reduction", "salt", "soda", "wood", "raku"].map(
  (word) => ({
    value: word,
    label: word,
  }),
);

const Nothing = ({ narrowed, mayAdd }: { narrowed: boolean; mayAdd: boolean }) =>
  narrowed ? (
    <p>
      No glaze fits all of that. <a href="/recipes">Show all</a>
    </p>
  ) : (
    <p>
      The library is empty.{" "}
      {mayAdd
        ? "Put the powders on the shelf first, then publish a recipe from them."
        : "Its first recipe appears here as soon as somebody publishes one."}
    </p>
  );
