import type { Config } from "./config.ts";
import type { ReplicaIs } from "./db/replica.ts";
import type { SlowQuery } from "./db/slow-queries.ts";
import type { ListRead } from "./wire/context.ts";
import type { Answered, Broken } from "./wire/telling.ts";
import { openLog, whatBroke } from "./work/log.ts";
import { openMetrics } from "./work/metrics.ts";

/** Writes what the app tells of its running into the log, and counts it where anybody may read that. */
export function beginTelling(
  config: Pick<Config, "logLevel" | "metricsToken">,
  log = openLog(config),
) {
  const metrics = config.metricsToken === undefined ? undefined : openMetrics();
  return {
    metrics,
    answered: (request: Answered): void => {
      metrics?.answered(request);
      log.info({ ...request, milliseconds: Math.round(request.milliseconds) }, "answered");
    },
    listed: (read: ListRead): void => metrics?.listed(read),
    replica: (is: ReplicaIs): void => {
      const told = { replica: is };
      if (is === "read") log.info(told, "lists are read from the replica");
      else log.warn(told, "lists are read from the primary");
    },
    broken: ({ error, ...request }: Broken): void => {
      metrics?.broken();
      log.error({ ...request, broke: whatBroke(error) }, "something broke");
    },
    slow: ({ query, milliseconds }: SlowQuery): void => {
      metrics?.slow();
      log.warn({ query, milliseconds: Math.round(milliseconds) }, "a slow statement");
    },
  };
}
