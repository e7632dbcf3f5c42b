import { hexOf } from "../../src/chem/colour.ts";
import { labWords, type ShownColour, sourceWords } from "./colour-words.ts";
import { DayOf } from "./day.tsx";

/** A colour as a screen shows it; its figures stand beside it, since no two screens show the same. */
export const Swatch = ({ colour }: { colour: Pick<ShownColour, "lightness" | "a" | "b"> }) => (
  <svg class="swatch" viewBox="0 0 8 8" width="72" height="72" role="img">
    <title>{`A patch of the colour ${labWords(colour)}`}</title>
    <rect width="8" height="8" fill={hexOf(colour)} />
  </svg>
);

/** A colour with its figures, what it was read with, by whom and when. */
export const ColourLine = ({ colour }: { colour: ShownColour }) => (
  <div class="colour">
    <Swatch colour={colour} />
    <p>
      <span class="colour-figures">{labWords(colour)}</span>
      <br />
      {sourceWords[colour.from]}
      <br />
      <span class="colour-who">
        {colour.by.name}, <DayOf at={colour.at} />
      </span>
    </p>
  </div>
);
