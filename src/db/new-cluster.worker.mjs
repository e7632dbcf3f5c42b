// A thread's first file has to be JavaScript, so this one is.
import { parentPort, workerData } from "node:worker_threads";
import { PGlite } from "@electric-sql/pglite";
import { pg_trgm } from "@electric-sql/pglite/contrib/pg_trgm";

const client = await PGlite.create({ extensions: { pg_trgm } });
await client.exec(workerData.migrations);
// What is on its files is all there is: whoever opens them has nothing to recover.
await client.exec("checkpoint");
const files = await (await client.dumpDataDir("none")).arrayBuffer();
parentPort?.postMessage(files, [files]);
