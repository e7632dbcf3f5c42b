import type { NewPicture } from "../db/pictures.ts";
import type { Prepared } from "./diary.ts";
import { drawTile } from "./drawn-tile.ts";
import { everyone, type Who } from "./people.ts";
import { type DemoTile, demoTiles } from "./tiles.ts";

/**
 * Starts to hash the password for everybody and to draw the tiles, beside whatever else goes on.
 * What they need is loaded here and not before, since a start that keeps what is there needs none.
 */
export function startPreparing(password: string): Prepared {
  const hashes = hashForEverybody(password);
  const pictures = new Map(demoTiles.map((tile, place) => [tile, draw(tile, place)]));
  // Whoever awaits one hears of a failure; until then it must not end the process.
  for (const promise of [hashes, ...pictures.values()]) promise.catch(() => {});
  return { hashes, pictures };
}

async function hashForEverybody(password: string): Promise<Record<Who, string>> {
  const { hashPassword } = await import("../work/passwords.ts");
  const hashes = await Promise.all(
    everyone.map(async (who) => [who, await hashPassword(password)] as const),
  );
  return Object.fromEntries(hashes) as Record<Who, string>;
}

/** The drawing goes the way of an upload, so that it is kept as a photograph would be. */
async function draw(tile: DemoTile, place: number): Promise<NewPicture | undefined> {
  const { look, clay, cone, glaze } = tile;
  if (!look) return undefined;
  const { default: sharp } = await import("sharp");
  const { makePicture } = await import("../work/pictures.ts");
  const svg = drawTile({ look, clay, cone, seed: `${glaze} ${place}` });
  const png = await sharp(Buffer.from(svg)).png({ compressionLevel: 1 }).toBuffer();
  const made = await makePicture(png);
  if (made.kind !== "made") throw new Error(`the drawing of ${glaze} is ${made.kind}`);
  return made.picture;
}
