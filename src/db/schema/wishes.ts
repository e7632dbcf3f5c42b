import { check, pgTable, text, uuid } from "drizzle-orm/pg-core";
import { isDigest, moment, oneOf } from "./columns.ts";
import { people } from "./people.ts";

export const mailWishes = ["off", "at once", "daily"] as const;

/** How a person wants to be told what waits for them. */
export const wishes = pgTable(
  "wishes",
  {
    personId: uuid()
      .primaryKey()
      .references(() => people.id),
    mail: text({ enum: mailWishes }).notNull(),
    /** What was there up to this moment has been told by mail. */
    mailedUpTo: moment(),
    /** The SHA-256 of the token in the person's feed address. */
    feedTokenHash: text().unique("wishes_feed_token_unique"),
  },
  (wish) => [
    check("wishes_mail_known", oneOf(wish.mail, mailWishes)),
    check("wishes_feed_token_hashed", isDigest(wish.feedTokenHash)),
  ],
);
