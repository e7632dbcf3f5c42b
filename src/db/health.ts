import { sql } from "drizzle-orm";
import type { Db } from "./client.ts";

/** Whether the database answers within two seconds. */
export async function isReachable(db: Db): Promise<boolean> {
  let timer: NodeJS.Timeout | undefined;
  const late = new Promise<boolean>((resolve) => {
    timer = setTimeout(() => resolve(false), 2000);
  });
  const asked = db.execute(sql`select 1`).then(
    () => true,
    () => false,
  );
  const reached = await Promise.race([asked, late]);
  clearTimeout(timer);
  return reached;
}
