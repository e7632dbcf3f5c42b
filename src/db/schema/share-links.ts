import { check, index, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { id, isDigest, moment } from "./columns.ts";
import { people } from "./people.ts";
import { revisions } from "./recipes.ts";

/** A link that shows one revision to whoever holds it, until it is revoked. Only its token's hash is kept. */
export const shareLinks = pgTable(
  "share_links",
  {
    id: id(),
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    tokenHash: text().notNull().unique("share_links_token_unique"),
    madeBy: uuid()
      .notNull()
      .references(() => people.id),
    madeAt: moment().notNull(),
    revokedAt: moment(),
    revokedBy: uuid().references(() => people.id),
  },
  (link) => [
    index("share_links_of_revision").on(link.revisionId),
    check("share_links_token_hashed", isDigest(link.tokenHash)),
  ],
);
