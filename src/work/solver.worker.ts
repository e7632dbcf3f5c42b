import { parentPort } from "node:worker_threads";
import { solverTasks, type TaskKind, type TaskRun } from "./solver-tasks.ts";

/** What the thread is sent. */
export type ToSolver = { task: number; kind: TaskKind; input: unknown; seconds: number };

/** What it sends back: that it can begin, the best so far, the answer, or what broke. */
export type FromSolver =
  | { says: "ready" }
  | { says: "progress"; task: number; best: unknown }
  | { says: "done"; task: number; output: unknown }
  | { says: "broke"; task: number; error: string };

const port = parentPort;
if (!port) throw new Error("this file is a worker thread's");
const tell = (message: FromSolver) => port.postMessage(message);

port.on("message", async ({ task, kind, input, seconds }: ToSolver) => {
  const run: TaskRun = { seconds, progress: (best) => tell({ says: "progress", task, best }) };
  try {
    // The table pairs each kind with its own input, which a thread's message cannot show.
    const perform = solverTasks[kind] as (input: unknown, run: TaskRun) => Promise<unknown>;
    tell({ says: "done", task, output: await perform(input, run) });
  } catch (error) {
    tell({ says: "broke", task, error: String(error instanceof Error ? error.stack : error) });
  }
});
tell({ says: "ready" });
