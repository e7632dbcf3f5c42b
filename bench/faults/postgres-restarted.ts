import { startApp } from "../sheets/app.ts";
import { waited } from "../sheets/waiting.ts";
import { onPostgres, verifyClean } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { inWords, openStudio, type Studio } from "./sheets/studio.ts";
import { nothingHalfWritten, Writing } from "./sheets/writing.ts";

/** The database is stopped under load, once in order and once as by a crash, and comes back. */
await onPostgres(async (engine) => {
  const studio = await openStudio(await startApp(engine.variables));
  const writing = new Writing(studio);
  writing.begin();
  for (const how of ["fast", "immediate"] as const) {
    const where = `Postgres, ${how}`;
    const more = (count: number) => {
      const before = writing.acknowledged.length;
      return waited(() => writing.acknowledged.length >= before + count, 30);
    };
    await more(30);
    engine.cluster.stop(how);
    await whileAway(studio, where);
    engine.cluster.start();
    const ready = await waited(async () => (await studio.ask("/readyz")).status === 200, 10);
    promised(
      where,
      "/readyz says so once it is back",
      ready.came,
      `after ${ready.seconds.toFixed(1)} s`,
    );
    const went = await more(30);
    promised(
      where,
      "the app goes on without a restart",
      went.came && studio.app.runs,
      `30 more notes after ${went.seconds.toFixed(1)} s`,
    );
  }
  await writing.end();
  writing.refusedInWords(engine.name, [500, 503]);
  await writing.keptOnce(engine.name);
  await studio.app.end("SIGTERM");
  await nothingHalfWritten(engine);
  verifyClean(engine);
});

async function whileAway(studio: Studio, where: string): Promise<void> {
  const ready = await studio.ask("/readyz");
  const alive = await studio.ask("/healthz");
  promised(
    where,
    "meanwhile /readyz says that the database is away, /healthz that the process runs",
    ready.status === 503 && alive.status === 200,
    `${ready.status} and ${alive.status}`,
  );
  const page = await studio.ask("/recipes", { accept: "text/html" });
  promised(
    where,
    "a page says so too",
    page.status === 503 && inWords(page),
    `${page.status} after ${page.seconds.toFixed(1)} s`,
  );
}
