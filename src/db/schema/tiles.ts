import { sql } from "drizzle-orm";
import {
  check,
  date,
  index,
  integer,
  pgTable,
  primaryKey,
  smallint,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { bodies } from "./bodies.ts";
import { bytes, decimal, id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { firings } from "./firings.ts";
import { people } from "./people.ts";
import { atmospheres, revisions } from "./recipes.ts";

/** What can go wrong with a glaze in the fire, in the trade's words. */
export const defects = [
  "crazing",
  "shivering",
  "crawling",
  "pinholing",
  "blistering",
  "running",
  "dunting",
  "underfired",
  "overfired",
] as const;

/** A fired test tile of one revision: what came out of the kiln at one cone. Append-only. */
export const tiles = pgTable(
  "tiles",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    cone: text().notNull(),
    atmosphere: text({ enum: atmospheres }).notNull(),
    clay: text().notNull(),
    firedOn: date({ mode: "string" }),
    remark: text().notNull(),
    bodyId: uuid().references(() => bodies.id),
    firingId: uuid().references(() => firings.id),
    bisqueCone: text(),
    thicknessMm: decimal({ precision: 5, scale: 2 }),
    /** Where in the kiln it stood. */
    place: text().notNull().default(""),
    /** What the surface came out as. */
    surface: text().notNull().default(""),
    defects: text({ enum: defects }).array().notNull().default([]),
    /** The revision that this one lies over: such a tile speaks for the pair, not for either alone. */
    overId: uuid().references(() => revisions.id),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (tile) => [
    index("tiles_of_firing").on(tile.firingId),
    index("tiles_of_body").on(tile.bodyId),
    check("tiles_bisque_cone_shape", sql`${tile.bisqueCone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check("tiles_thickness_possible", sql`${tile.thicknessMm} > 0 and ${tile.thicknessMm} <= 20`),
    check("tiles_place_length", lengthIs(tile.place, 0, 80)),
    check("tiles_surface_length", lengthIs(tile.surface, 0, 60)),
    check(
      "tiles_defects_known",
      sql`${tile.defects} <@ array[${sql.raw(defects.map((defect) => `'${defect}'`).join(", "))}]::text[]`,
    ),
    index("tiles_of_revision").on(tile.revisionId, tile.id),
    check("tiles_cone_shape", sql`${tile.cone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check("tiles_atmosphere_known", oneOf(tile.atmosphere, atmospheres)),
    check("tiles_clay_length", lengthIs(tile.clay, 0, 80)),
    check("tiles_remark_length", lengthIs(tile.remark, 0, 2000)),
  ],
);

/** A tile that turned out to be wrong stays on record, with the reason. Append-only. */
export const tileWithdrawals = pgTable(
  "tile_withdrawals",
  {
    tileId: uuid()
      .primaryKey()
      .references(() => tiles.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [check("tile_withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000))],
);

/** A picture, known by the SHA-256 of its master. Append-only; the bytes are apart. */
export const pictures = pgTable(
  "pictures",
  {
    sha256: text().primaryKey(),
    width: integer().notNull(),
    height: integer().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (picture) => [
    check("pictures_sha256_is_digest", isDigest(picture.sha256)),
    check(
      "pictures_size_possible",
      sql`${picture.width} between 1 and 2400 and ${picture.height} between 1 and 2400`,
    ),
  ],
);

/** The master (width 0) and the widths made from it, in a table that no list joins. Can be blanked. */
export const pictureBytes = pgTable(
  "picture_bytes",
  {
    sha256: text()
      .notNull()
      .references(() => pictures.sha256),
    width: smallint().notNull(),
    bytes: bytes(),
    removedAt: moment(),
    removedBy: uuid().references(() => people.id),
    removedWhy: text(),
  },
  (picture) => [
    primaryKey({ columns: [picture.sha256, picture.width] }),
    check("picture_bytes_width_possible", sql`${picture.width} between 0 and 2400`),
    check(
      "picture_bytes_there_or_removed",
      sql`(${picture.bytes} is null) = (${picture.removedAt} is not null)`,
    ),
  ],
);

/** A picture as it hangs on a tile. Append-only. */
export const photos = pgTable(
  "photos",
  {
    id: id(),
    tileId: uuid()
      .notNull()
      .references(() => tiles.id),
    sha256: text()
      .notNull()
      .references(() => pictures.sha256),
    alt: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (photo) => [
    index("photos_of_tile").on(photo.tileId, photo.id),
    index("photos_of_picture").on(photo.sha256),
    check("photos_alt_length", lengthIs(photo.alt, 0, 500)),
  ],
);
