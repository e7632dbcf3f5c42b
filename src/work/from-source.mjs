// A thread's first file has to be JavaScript: what `--import tsx` teaches the process is not passed
// on to its threads. This teaches one, then runs the TypeScript that it was started for.
import { workerData } from "node:worker_threads";
import { register } from "tsx/esm/api";

register();
await import(workerData.entry);
