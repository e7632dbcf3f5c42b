import type { NewPicture } from "../db/pictures.ts";
import type { Pictured, Prepared } from "./diary.ts";
import { type DrawnTile, drawTile } from "./drawn-tile.ts";
import { everyone, type Who } from "./people.ts";
import { demoTiles } from "./tiles.ts";
import { demoTrials, trialClay } from "./trials.ts";

/**
 * Starts to hash the password for everybody beside whatever else goes on, and is ready to draw. What
 * they need is loaded here and not before, since a start that keeps what is there needs none.
 */
export function startPreparing(password: string): Prepared {
  const hashes = hashForEverybody(password);
  // Whoever awaits it hears of a failure; until then it must not end the process.
  hashes.catch(() => {});
  let pictures: Map<Pictured, Promise<NewPicture>> | undefined;
  return {
    hashes,
    pictures: () => {
      pictures ??= startDrawing();
      return pictures;
    },
  };
}

async function hashForEverybody(password: string): Promise<Record<Who, string>> {
  const { hashPassword } = await import("../work/passwords.ts");
  const hashes = await Promise.all(
    everyone.map(async (who) => [who, await hashPassword(password)] as const),
  );
  return Object.fromEntries(hashes) as Record<Who, string>;
}

function startDrawing(): Map<Pictured, Promise<NewPicture>> {
  const pictures = new Map<Pictured, Promise<NewPicture>>();
  for (const [place, tile] of demoTiles.entries()) {
    const { look, clay, cone, glaze } = tile;
    if (look) pictures.set(tile, draw({ look, clay, cone, seed: `${glaze} ${place}` }));
  }
  for (const { name, cone, results } of demoTrials) {
    for (const result of results) {
      const { n, look } = result;
      if (look) pictures.set(result, draw({ look, clay: trialClay, cone, seed: `${name} ${n}` }));
    }
  }
  for (const picture of pictures.values()) picture.catch(() => {});
  return pictures;
}

/** The drawing goes the way of an upload, so that it is kept as a photograph would be. */
async function draw(tile: DrawnTile): Promise<NewPicture> {
  const { loadSharp, makePicture } = await import("../work/pictures.ts");
  const sharp = await loadSharp();
  const png = await sharp(Buffer.from(drawTile(tile)))
    .png({ compressionLevel: 1 })
    .toBuffer();
  const made = await makePicture(png);
  if (made.kind !== "made") throw new Error(`the drawing of ${tile.seed} is ${made.kind}`);
  return made.picture;
}
