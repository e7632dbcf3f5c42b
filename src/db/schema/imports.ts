import { check, index, pgTable, primaryKey, text, uuid } from "drizzle-orm/pg-core";
import { id, isDigest, lengthIs, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";

export const importedNouns = ["material", "analysis", "recipe", "note", "tile", "photo"] as const;

/** A file of recipes, materials or analyses from elsewhere that was taken in. Append-only. */
export const imports = pgTable(
  "imports",
  {
    id: id(),
    fileName: text().notNull(),
    /** SHA-256 of the file. */
    digest: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (file) => [
    index("imports_of_digest").on(file.digest),
    check("imports_file_name_length", lengthIs(file.fileName, 0, 200)),
    check("imports_digest_is_digest", isDigest(file.digest)),
  ],
);

/** A record that an import brought. Append-only. */
export const importedThings = pgTable(
  "imported_things",
  {
    importId: uuid()
      .notNull()
      .references(() => imports.id),
    noun: text({ enum: importedNouns }).notNull(),
    thingId: uuid().notNull(),
  },
  (thing) => [
    primaryKey({ columns: [thing.noun, thing.thingId] }),
    index("imported_things_of_import").on(thing.importId),
    check("imported_things_noun_known", oneOf(thing.noun, importedNouns)),
  ],
);

/** An import taken back as one: what it brought stays on record and counts no more. Append-only. */
export const importWithdrawals = pgTable(
  "import_withdrawals",
  {
    importId: uuid()
      .primaryKey()
      .references(() => imports.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [check("import_withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000))],
);
