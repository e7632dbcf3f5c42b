import { Worker } from "node:worker_threads";
import type { FromSolver, ToSolver } from "./solver.worker.ts";

/** Our own ending is the worker's: built, or TypeScript from source. */
const fromSource = import.meta.url.endsWith(".ts");
const ourEntry = new URL(`./solver.worker.${fromSource ? "ts" : "js"}`, import.meta.url);
const teacher = new URL("./from-source.mjs", import.meta.url);

export type SolverThread = {
  send: (message: ToSolver) => void;
  /** Whether the process has to stay for it: only while something is under way. */
  hold: (held: boolean) => void;
  end: () => Promise<void>;
};

/**
 * A thread that solves. It never keeps a process from ending by itself.
 *
 * @param tell every message of the thread, and once `undefined` where the thread is gone unasked.
 * @param entry the file that the thread runs, which hears and says what ours does.
 */
export function startThread(
  tell: (message: FromSolver | undefined, error?: Error) => void,
  entry: URL = ourEntry,
): SolverThread {
  const worker = new Worker(fromSource ? teacher : entry, {
    execArgv: [],
    workerData: { entry: entry.href },
  });
  let asked = false;
  let failure: Error | undefined;
  worker.on("message", (message: FromSolver) => asked || tell(message));
  worker.on("error", (error) => {
    failure = error instanceof Error ? error : new Error(String(error));
  });
  worker.on("exit", (code) => {
    if (!asked) tell(undefined, failure ?? new Error(`the solver's thread ended with ${code}`));
  });
  worker.unref();
  return {
    send: (message) => worker.postMessage(message),
    hold: (held) => (held ? worker.ref() : worker.unref()),
    end: async () => {
      asked = true;
      await worker.terminate();
    },
  };
}
