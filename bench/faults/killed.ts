import { startApp } from "../sheets/app.ts";
import { waited } from "../sheets/waiting.ts";
import { onEachEngine, verifyClean } from "./sheets/engines.ts";
import { openStudio } from "./sheets/studio.ts";
import { nothingHalfWritten, Writing } from "./sheets/writing.ts";

/** The app is killed twice while people write, as by a power cut to it alone. */
await onEachEngine(async (engine) => {
  const studio = await openStudio(await startApp(engine.variables));
  const writing = new Writing(studio);
  for (const most of [40, 90]) {
    writing.begin();
    await waited(() => writing.acknowledged.length >= most, 40);
    await studio.app.end("SIGKILL");
    await writing.end();
    studio.app = await startApp(engine.variables);
  }
  await writing.keptOnce(engine.name);
  await studio.app.end("SIGTERM");
  await nothingHalfWritten(engine);
  verifyClean(engine);
});
