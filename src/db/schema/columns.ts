import { Decimal } from "decimal.js";
import { type SQL, sql } from "drizzle-orm";
import { type AnyPgColumn, customType, timestamp, uuid } from "drizzle-orm/pg-core";

/** Text that sorts by code point on every engine, whatever the server's locale is. */
export const sortedText = customType<{ data: string }>({ dataType: () => 'text COLLATE "C"' });

/** A `numeric` that arrives as Decimal and leaves as its plain digits. */
export const decimal = customType<{
  data: Decimal;
  driverData: string;
  config: { precision: number; scale: number };
}>({
  dataType: (size) => `numeric(${size?.precision ?? 20}, ${size?.scale ?? 6})`,
  fromDriver: (digits) => new Decimal(digits),
  toDriver: (value) => value.toFixed(),
});

export const bytes = customType<{ data: Uint8Array }>({ dataType: () => "bytea" });

/** A moment, to the millisecond. */
export const moment = () => timestamp({ withTimezone: true, precision: 3, mode: "date" });

/** A UUIDv7 made by the app, so that an export keeps it. */
export const id = () => uuid().primaryKey();

/** CHECK that a text has between `least` and `most` characters. */
export const lengthIs = (column: AnyPgColumn, least: number, most: number): SQL =>
  sql`char_length(${column}) between ${sql.raw(String(least))} and ${sql.raw(String(most))}`;

/** CHECK that a text is one of the given words. */
export const oneOf = (column: AnyPgColumn, words: readonly string[]): SQL =>
  sql`${column} in (${sql.raw(words.map((word) => `'${word}'`).join(", "))})`;

/** CHECK that a text is a SHA-256 in lower-case hexadecimal. */
export const isDigest = (column: AnyPgColumn): SQL => sql`${column} ~ '^[0-9a-f]{64}$'`;
