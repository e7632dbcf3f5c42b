import { FoodCaution } from "../parts/cautions.tsx";
import { ConeHeat } from "../parts/cone-heat.tsx";
import { Choice } from "../parts/field.tsx";
import { RecipeStrips } from "../parts/recipe-strip.tsx";
import { Use } from "../parts/standing.tsx";
import { coneChoices } from "../tiles/cone-words.ts";
import { leftOutGuide, leftOutSays, makings } from "./makings.ts";
import type { Answered, ShownGlaze } from "./types.ts";

/** Which glazes may be used on a piece: in stock, then approved, then why not the others. */
export const StartAnswer = ({ answered }: { answered: Answered }) => {
  const { making, cone, body, inStock, approved, leftOut } = answered;
  const decorative = [...(inStock ?? []), ...approved].some((glaze) => glaze.for === "decorative");
  return (
    <section>
      <h1>Glazes for: {making.name.toLowerCase()}</h1>
      <p>
        {making.says}{" "}
        {making.food
          ? "So only what was approved for functional ware is shown."
          : "So what was approved as decorative only is shown too."}{" "}
        <a href="/start">Something else</a>
      </p>
      <Choices answered={answered} />
      <p>
        <ConeHeat cones={[cone]} />
      </p>
      {body && !body.fits ? (
        <p class="caution">
          <strong>Not this body.</strong> {body.name} is for cones {body.cones.low} to{" "}
          {body.cones.high}, and cone {cone} is not among them: choose another body, or ask whoever
          runs the kiln.
        </p>
      ) : null}
      {decorative ? <Use use="decorative" long /> : null}
      {inStock === null ? null : <InStock glazes={inStock} />}
      <Approved
        glazes={approved}
        told={inStock !== null}
        library={`/recipes?standing=approved&cone=${cone}${making.food ? "&use=functional" : ""}`}
      />
      {leftOut.length === 0 ? null : (
        <>
          <h2>Why others are left out</h2>
          <ul class="left-out">
            {leftOut.map((each) => (
              <li>
                {leftOutSays(each)} <a href={`/guide/${leftOutGuide[each.why]}`}>What that means</a>
              </li>
            ))}
          </ul>
        </>
      )}
      <FoodCaution use={decorative ? "decorative" : "functional"} />
    </section>
  );
};

const Choices = ({ answered: { making, cone, body, bodies } }: { answered: Answered }) => (
  <search>
    <form class="narrowing" method="get" action="/start">
      <Choice
        label="Piece"
        name="making"
        value={making.key}
        options={makings.map(({ key, name }) => ({ value: key, label: name }))}
      />
      <Choice label="Fired to cone" name="cone" value={cone} options={coneChoices()} />
      {bodies.length > 0 ? (
        <Choice
          label="On the body"
          name="body"
          value={body?.slug ?? ""}
          options={[
            ...(body ? [] : [{ value: "", label: "none for that cone" }]),
            ...bodies.map(({ slug, name }) => ({ value: slug, label: name })),
          ]}
        />
      ) : null}
      <button type="submit">Show these</button>
    </form>
  </search>
);

const InStock = ({ glazes }: { glazes: readonly ShownGlaze[] }) => (
  <>
    <h2>In stock now</h2>
    {glazes.length === 0 ? (
      <p>No open bucket may be used for this at that cone now.</p>
    ) : (
      <Glazes glazes={glazes} caption="In a bucket that may be used now" />
    )}
  </>
);

type ApprovedProps = {
  glazes: readonly ShownGlaze[];
  /** Whether the reader is told what is in stock. */
  told: boolean;
  /** Where the library narrows to glazes like these. */
  library: string;
};

/** What may be taken at once is shown whole; of what has to be mixed first, as many as one looks through. */
const mostToMix = 60;

const Approved = ({ glazes, told, library }: ApprovedProps) => {
  const more = glazes.length - mostToMix;
  return (
    <>
      <h2>{told ? "Approved, but not in stock" : "Approved"}</h2>
      {told ? null : (
        <p>
          <a href="/session/new">Sign in</a> to see which of them are in a bucket that may be used.
        </p>
      )}
      {glazes.length === 0 ? (
        <p>{told ? "No other glaze is" : "No glaze is"} approved for this at that cone.</p>
      ) : (
        <Glazes
          glazes={glazes.slice(0, mostToMix)}
          caption={told ? "To be mixed first" : "Approved by the studio"}
        />
      )}
      {more > 0 ? (
        <p>
          {more === 1 ? "1 more is" : `${more} more are`} approved for this at that cone:{" "}
          <a href={library}>narrow the library</a> to find what you look for.
        </p>
      ) : null}
    </>
  );
};

const Glazes = ({ glazes, caption }: { glazes: readonly ShownGlaze[]; caption: string }) => (
  <RecipeStrips
    caption={caption}
    recipes={glazes.map((glaze) => ({
      slug: glaze.slug,
      href: `/recipes/${glaze.slug}/revisions/${glaze.number}`,
      name: glaze.name,
      maker: glaze.owner.name,
      revision: glaze.number,
      picture: glaze.tile?.picture ?? undefined,
      note: tileSays(glaze),
      standing: "approved" as const,
      approved: { number: glaze.number, for: glaze.for },
      use: glaze.for,
      cones: glaze.cones,
      tested: glaze.tested,
      surface: glaze.surface,
      atmosphere: glaze.atmosphere,
      inStock: stockSays(glaze),
    }))}
  />
);

function tileSays({ tile }: ShownGlaze): string {
  if (!tile) return "No tile of it on record.";
  const where = `Tile on ${tile.clay || "a clay that nobody named"} at cone ${tile.cone}`;
  const shows = tile.defects.length > 0 ? `, which shows ${tile.defects.join(", ")}` : "";
  const other = tile.onBody ? "" : " None on your body: fire one first.";
  return `${where}${shows}.${other}`;
}

function stockSays({ buckets, notNow }: ShownGlaze): string | undefined {
  const open = buckets.map(({ name, litres }) => `${litres.toFixed()} l in ${name}.`);
  const not = notNow.map((why) => `Not ${why}`);
  return open.length + not.length > 0 ? [...open, ...not].join(" ") : undefined;
}
