import { Counter, collectDefaultMetrics, Gauge, Histogram, Registry } from "prom-client";

type Timed = { method: string; route: string; status: number; milliseconds: number };

export type Metrics = {
  answered: (request: Timed) => void;
  broken: () => void;
  slow: () => void;
  /** A list was read from the replica, or from the primary and why. */
  listed: (read: string) => void;
  /** Tells how old what the replica shows may be, seconds. */
  followReplica: (behindSeconds: () => number) => void;
  /** All of it in the text format that Prometheus reads. */
  text: () => Promise<string>;
  contentType: string;
};

/** What this instance counts since it started; each instance answers for itself. */
export function openMetrics(): Metrics {
  const register = new Registry();
  collectDefaultMetrics({ register });
  const requests = new Histogram({
    name: "bucket_request_seconds",
    help: "How long requests took to answer, by the pattern of their address",
    labelNames: ["method", "route", "status"],
    buckets: [0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 1, 2.5, 10],
    registers: [register],
  });
  const faults = new Counter({
    name: "bucket_faults_total",
    help: "Requests in which something broke",
    registers: [register],
  });
  const slow = new Counter({
    name: "bucket_slow_queries_total",
    help: "Statements that took longer than SLOW_QUERY_MS",
    registers: [register],
  });
  const lists = new Counter({
    name: "bucket_lists_total",
    help: "Lists read, by where, and why on the primary where they were",
    labelNames: ["read"],
    registers: [register],
  });
  return {
    answered: ({ method, route, status, milliseconds }) =>
      requests.observe({ method, route, status: String(status) }, milliseconds / 1000),
    broken: () => faults.inc(),
    slow: () => slow.inc(),
    listed: (read) => lists.inc({ read }),
    followReplica: (behindSeconds) => {
      new Gauge({
        name: "bucket_replica_behind_seconds",
        help: "How old what the replica shows may be; infinite where it was never seen",
        registers: [register],
        collect() {
          this.set(behindSeconds());
        },
      });
    },
    text: () => register.metrics(),
    contentType: register.contentType,
  };
}
