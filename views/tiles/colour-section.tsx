import type { ColourDifference } from "../../src/chem/colour-comparing.ts";
import { Choice } from "../parts/field.tsx";
import { noColours, type ShownColours } from "./colour-words.ts";
import { Difference } from "./difference.tsx";
import { ColourLine, Swatch } from "./swatch.tsx";

export type OtherTile = {
  id: string;
  recipe: string;
  number: number;
  cone: string;
  clay: string;
  firedOn: string | null;
  colours: ShownColours;
};

export type ColourSectionProps = {
  tileId: string;
  colours: ShownColours;
  /** The other tiles of the same melt that have a colour. */
  others: readonly OtherTile[];
  /** The one of them that this is held against. */
  against: { id: string; difference: ColourDifference } | "not-among-them" | undefined;
  mayChange: boolean;
};

/** What colour a tile came out, and how far that is from another tile of the same melt. */
export const ColourSection = (props: ColourSectionProps) => {
  const { tileId, colours, others, mayChange } = props;
  return (
    <section id="colour">
      <h2>Its colour</h2>
      {noColours(colours) ? <p>Nobody has read its colour yet.</p> : null}
      {[colours.instrument, colours.camera].map((colour) =>
        colour ? <ColourLine colour={colour} /> : null,
      )}
      {noColours(colours) ? null : <Against {...props} />}
      <p>
        {mayChange ? (
          <a href={`/tiles/${tileId}/colours`}>Put its colour on record</a>
        ) : noColours(colours) ? null : (
          <a href={`/tiles/${tileId}/colours`}>Everything that was read of it</a>
        )}
        {others.length === 0 && !noColours(colours)
          ? " No other tile of this melt has a colour yet to hold it against."
          : null}
      </p>
    </section>
  );
};

const Against = ({ tileId, others, against }: ColourSectionProps) => {
  if (others.length === 0) return null;
  const asked = against === "not-among-them" ? undefined : against;
  const other = others.find(({ id }) => id === asked?.id);
  return (
    <>
      {against === "not-among-them" ? (
        <p>That tile is not of this melt or has no colour. Choose one from the list.</p>
      ) : null}
      {asked && other ? (
        <div class="colour">
          <OtherSwatch other={other} from={asked.difference} />
          <p>
            <Difference difference={asked.difference} />
            <br />
            from <a href={`/tiles/${other.id}`}>{otherWords(other)}</a>
          </p>
        </div>
      ) : null}
      <form method="get" action={`/tiles/${tileId}#colour`}>
        <Choice
          name="against"
          label="Hold it against another tile of this melt"
          value={asked?.id}
          options={others.map((each) => ({ value: each.id, label: otherWords(each) }))}
        />
        <p class="actions">
          <button type="submit" class="quiet">
            Show the difference
          </button>
        </p>
      </form>
    </>
  );
};

const OtherSwatch = ({ other, from }: { other: OtherTile; from: ColourDifference }) => {
  const shown =
    from.kind === "differs"
      ? other.colours[from.from]
      : (other.colours.instrument ?? other.colours.camera);
  return shown ? <Swatch colour={shown} /> : null;
};

const otherWords = ({ recipe, number, cone, clay, firedOn }: OtherTile): string =>
  [`${recipe}, revision ${number}`, `cone ${cone}`, clay, firedOn].filter(Boolean).join(", ");
