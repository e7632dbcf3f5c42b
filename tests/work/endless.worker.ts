import { parentPort } from "node:worker_threads";
import type { FromSolver, ToSolver } from "../../src/work/solver.worker.ts";

// A thread whose tasks tell what they were sent as their best, where it is something, and never end.
const tell = (message: FromSolver) => parentPort?.postMessage(message);

parentPort?.on("message", ({ task, input }: ToSolver) => {
  if (input !== null) tell({ says: "progress", task, best: input });
  for (;;);
});
tell({ says: "ready" });
