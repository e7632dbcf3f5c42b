import { sql } from "drizzle-orm";
import {
  check,
  date,
  doublePrecision,
  index,
  integer,
  pgTable,
  primaryKey,
  smallint,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { bodies } from "./bodies.ts";
import { buckets } from "./buckets.ts";
import { bytes, decimal, id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { firings } from "./firings.ts";
import { people } from "./people.ts";
import { atmospheres, revisions } from "./recipes.ts";

export const colourSources = ["instrument", "camera"] as const;

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

export const transparencies = ["clear", "translucent", "opaque"] as const;
export const movements = ["stays put", "moves a little", "moves", "runs"] as const;
export const applications = ["dipped", "poured", "brushed", "sprayed"] as const;

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
    transparency: text({ enum: transparencies }),
    movement: text({ enum: movements }),
    application: text({ enum: applications }),
    /** Of dipping or pouring. */
    seconds: decimal({ precision: 5, scale: 1 }),
    coats: smallint(),
    /** Of the slurry it was glazed from. */
    specificGravity: decimal({ precision: 5, scale: 3 }),
    /** What stood beside it: chromium and copper travel in the kiln. */
    beside: text().notNull().default(""),
    /** The bucket that it is a proof tile of. */
    bucketId: uuid().references(() => buckets.id),
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
    index("tiles_of_bucket").on(tile.bucketId, tile.id),
    index("tiles_over").on(tile.overId),
    check("tiles_transparency_known", oneOf(tile.transparency, transparencies)),
    check("tiles_movement_known", oneOf(tile.movement, movements)),
    check("tiles_application_known", oneOf(tile.application, applications)),
    check("tiles_seconds_possible", sql`${tile.seconds} > 0 and ${tile.seconds} <= 600`),
    check("tiles_coats_count", sql`${tile.coats} between 1 and 20`),
    check("tiles_gravity_possible", sql`${tile.specificGravity} between 1 and 3`),
    check("tiles_beside_length", lengthIs(tile.beside, 0, 300)),
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

/** The colour of a tile, CIE L*a*b* under D50. Append-only: the newest of its kind counts. */
export const tileColours = pgTable(
  "tile_colours",
  {
    id: id(),
    tileId: uuid()
      .notNull()
      .references(() => tiles.id),
    lightness: doublePrecision().notNull(),
    a: doublePrecision().notNull(),
    b: doublePrecision().notNull(),
    /** Off an instrument, or read from a picture through a neutral patch: for comparing, not for measuring. */
    from: text({ enum: colourSources }).notNull(),
    photoId: uuid().references(() => photos.id),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (colour) => [
    index("tile_colours_of_tile").on(colour.tileId, colour.id),
    check("tile_colours_lightness_possible", sql`${colour.lightness} between 0 and 100`),
    check("tile_colours_a_possible", sql`${colour.a} between -160 and 160`),
    check("tile_colours_b_possible", sql`${colour.b} between -160 and 160`),
    check("tile_colours_from_known", oneOf(colour.from, colourSources)),
    check(
      "tile_colours_camera_has_picture",
      sql`${colour.photoId} is null or ${colour.from} = 'camera'`,
    ),
  ],
);
