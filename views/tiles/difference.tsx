import { differenceWords } from "../../src/chem/colour.ts";
import type { ColourDifference } from "../../src/chem/colour-comparing.ts";
import { sourceWords } from "./colour-words.ts";

/** "ΔE00 1.34: to be seen side by side", or why nothing is told. */
export const Difference = ({ difference }: { difference: ColourDifference }) => {
  switch (difference.kind) {
    case "differs":
      return (
        <>
          <strong>
            ΔE<sub>00</sub> {difference.deltaE.toFixed(2)}
          </strong>
          : {differenceWords(difference.deltaE)}
          {difference.from === "camera" ? ` (${sourceWords.camera})` : null}
        </>
      );
    case "read-otherwise":
      return (
        <>
          One was read by an instrument and the other from a picture: no difference is told between
          them.
        </>
      );
    case "no-colour":
      return <>no colour on record</>;
  }
};
