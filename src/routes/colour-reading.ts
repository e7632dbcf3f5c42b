import { type Lab, labThroughNeutral } from "../chem/colour.ts";
import { findPicture, masterWidth } from "../db/pictures.ts";
import type { FoundPhoto } from "../db/tiles.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { type Place, readPatches } from "../work/patches.ts";

export type Places = { neutral: Place; spot: Place; neutralLightness: number };

export type Reading = { kind: "read"; lab: Lab } | { kind: "faulty"; faults: Fault[] };

/** The colour at a place of a tile's picture, put right by a neutral patch in the same picture. */
export async function readColour(c: Ctx, photo: FoundPhoto, places: Places): Promise<Reading> {
  const { db, viewer: reader } = c.var;
  const picture = await findPicture(db, { sha256: photo.sha256, width: masterWidth, reader });
  if (picture?.kind !== "found")
    return faulty("photo", "That picture is not there any more. Choose another.");
  const [neutral, spot] = await readPatches(picture.bytes, [places.neutral, places.spot]);
  if (!neutral || !spot) throw new Error("two places give two patches");
  if (neutral.end === "bright")
    return faulty(
      "neutral",
      "The grey patch is burnt out in this picture, so its tint is lost. Take the picture darker, or choose a grey patch instead of a white one.",
    );
  if (neutral.end === "dark")
    return faulty("neutral", "There is no grey patch there: that place is all but black.");
  if (spot.end === "bright")
    return faulty(
      "spot",
      "The glaze is burnt out there: a highlight, or the picture is too bright. Choose a place without shine.",
    );
  const read = labThroughNeutral({
    neutral: neutral.light,
    spot: spot.light,
    neutralLightness: places.neutralLightness,
  });
  switch (read.kind) {
    case "colour":
      return Math.max(Math.abs(read.lab.a), Math.abs(read.lab.b)) <= 160
        ? { kind: "read", lab: read.lab }
        : faulty("neutral", noGrey);
    case "no-light":
      return faulty("neutral", noGrey);
    case "over-white":
      return faulty(
        "spot",
        `By that grey patch the glaze would have a lightness of ${read.lightness.toFixed(0)}, and white has 100. Choose the grey patch again, or say how light it is.`,
      );
  }
}

const noGrey =
  "That place is no grey: one of its colours is all but missing. Choose a place on the neutral card.";

const faulty = (path: string, says: string): Reading => ({
  kind: "faulty",
  faults: [{ path, says }],
});
