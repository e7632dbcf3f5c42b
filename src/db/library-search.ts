import { type Placeholder, type SQL, sql } from "drizzle-orm";
import { revisionStandings } from "./schema/index.ts";
import type { StandingIs } from "./standing.ts";
import { isApprovedAt } from "./standings.ts";

/** An approval that is yet to be settled, or past its time, reads as needing another look. */
export const standingAt = (now: Date | Placeholder): SQL<StandingIs> =>
  sql<StandingIs>`case when ${revisionStandings.is} = 'approved' and not ${isApprovedAt(now)} then 'needs another look' else ${revisionStandings.is} end`;

/** The pattern of a LIKE that finds a text anywhere, whatever signs are in it. */
export const contains = (text: string): string => `%${text.replace(/[\\%_]/g, "\\$&")}%`;
