import type { NewPhoto } from "../db/pictures.ts";
import type { MadePicture } from "../work/pictures.ts";

type Refused = Exclude<MadePicture, { kind: "made" }> | Extract<NewPhoto, { kind: "removed" }>;

type Refusal = { status: 409 | 415 | 422; title: string; says: string };

const takes = "JPEG, PNG and WebP are taken.";
const fromThePhone =
  "In the camera's settings choose JPEG, sometimes called “most compatible”, or share the picture as JPEG; then send it again.";

const notTaken = {
  svg: `This is an SVG drawing. ${takes} Send a photograph of the tile.`,
  gif: `This is a GIF. ${takes} Save it as one of them.`,
  heic: `This is a HEIC picture, which not every browser can show. ${fromThePhone}`,
  avif: `This is an AVIF picture, which not every browser can show. ${fromThePhone}`,
  unknown: `This is no picture that can be read here, whatever its name says. ${takes}`,
} as const;

/** Why a picture was not kept and what to do about it. */
export function refusalOf(refused: Refused): Refusal {
  switch (refused.kind) {
    case "not-taken":
      return { status: 415, title: "Not a picture for here", says: notTaken[refused.is] };
    case "empty":
      return unreadable("The file is empty. Choose the picture again.");
    case "broken":
      return unreadable(
        "The picture is cut off or damaged: perhaps it did not arrive whole. Send it again, or take another.",
      );
    case "too-many-pixels":
      return unreadable(
        `The picture has ${refused.megapixels.toFixed(0)} million pixels; at most 50 million are taken. Send a smaller one.`,
      );
    case "removed":
      return {
        status: 409,
        title: "Removed before",
        says: `A manager had this very picture removed: ${refused.why} Send another one.`,
      };
  }
}

const unreadable = (says: string): Refusal => ({
  status: 422,
  title: "The picture could not be taken",
  says,
});
