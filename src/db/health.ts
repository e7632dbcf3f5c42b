import { sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { soon } from "./soon.ts";

/** Whether the database answers within two seconds. */
export const isReachable = async (db: Db): Promise<boolean> =>
  (await soon(
    db.execute(sql`select 1`).then(() => true),
    2000,
  )) ?? false;
