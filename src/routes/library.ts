import { Hono } from "hono";
import type { Env } from "../wire/context.ts";
import { find } from "./find.ts";
import { forks } from "./forks.ts";
import { histories } from "./histories.ts";
import { moves } from "./moves.ts";
import { nearest } from "./nearest.ts";
import { news } from "./news.ts";
import { notes } from "./notes.ts";
import { numbers } from "./numbers.ts";
import { recipes } from "./recipes.ts";
import { reviewRequests } from "./review-requests.ts";
import { reviews } from "./reviews.ts";
import { revisions } from "./revisions.ts";
import { visibility } from "./visibility.ts";
import { withdrawals } from "./withdrawals.ts";

/** The library's nouns, all under the recipe that they belong to. */
export const library = new Hono<Env>();

for (const noun of [
  find,
  revisions,
  reviews,
  reviewRequests,
  forks,
  withdrawals,
  visibility,
  notes,
  histories,
  news,
  numbers,
  moves,
  nearest,
  recipes,
])
  library.route("/", noun);
