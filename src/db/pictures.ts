import { sql } from "drizzle-orm";
import { photos } from "./schema/index.ts";

/** The widths that are made of every picture, in pixels; none is larger than the picture itself. */
export const pictureWidths = [200, 600, 1200] as const;

/** Where the master stands among the widths. */
export const masterWidth = 0;

/**
 * Whether a photo's picture was removed. It asks for the mark on the master and reads no bytes, so
 * that a list can ask it.
 */
export const isRemoved = sql<boolean>`exists (
  select 1 from picture_bytes
  where picture_bytes.sha256 = ${photos.sha256}
    and picture_bytes.width = ${sql.raw(String(masterWidth))}
    and picture_bytes.removed_at is not null
)`;
