import { check, index, jsonb, pgTable, primaryKey, text, uuid } from "drizzle-orm/pg-core";
import type { Move } from "../../chem/moves.ts";
import { lengthIs, moment } from "./columns.ts";
import { revisions } from "./recipes.ts";

/** What a new engine sees otherwise in a revision than the one before it, where that matters. */
export const engineMoves = pgTable(
  "engine_moves",
  {
    revisionId: uuid()
      .notNull()
      .references(() => revisions.id),
    fromEngine: text().notNull(),
    toEngine: text().notNull(),
    moves: jsonb().$type<Move[]>().notNull(),
    at: moment().notNull(),
  },
  (move) => [
    primaryKey({ columns: [move.revisionId, move.fromEngine, move.toEngine] }),
    index("engine_moves_in_order").on(move.toEngine, move.revisionId),
    check("engine_moves_from_length", lengthIs(move.fromEngine, 1, 20)),
    check("engine_moves_to_length", lengthIs(move.toEngine, 1, 20)),
  ],
);
