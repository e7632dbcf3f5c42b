import { Counter, collectDefaultMetrics, Histogram, Registry } from "prom-client";

type Timed = { method: string; route: string; status: number; milliseconds: number };

export type Metrics = {
  answered: (request: Timed) => void;
  broken: () => void;
  slow: () => void;
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
  return {
    answered: ({ method, route, status, milliseconds }) =>
      requests.observe({ method, route, status: String(status) }, milliseconds / 1000),
    broken: () => faults.inc(),
    slow: () => slow.inc(),
    text: () => register.metrics(),
    contentType: register.contentType,
  };
}
