import { mkdtempSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { asc } from "drizzle-orm";
import { events } from "../../src/db/schema/index.ts";
import { startApp } from "../sheets/app.ts";
import { type Engine, onEachEngine, verifyClean } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { email, openStudio, password, Studio } from "./sheets/studio.ts";

const hour = 60 * 60 * 1000;
const folder = mkdtempSync(join(tmpdir(), "bucket-clock-"));
const file = join(folder, "moved");

/** Seen by the app within the time that its shim keeps what it read. */
async function moveClock(by: number): Promise<void> {
  writeFileSync(`${file}.new`, `${by}`);
  renameSync(`${file}.new`, file);
  await new Promise((resolve) => setTimeout(resolve, 100));
}

/** The app's clock goes back an hour, then forward a day, then to where it was. */
await onEachEngine(async (engine) => {
  await moveClock(1);
  const shim = join(import.meta.dirname, "sheets/clock.mjs");
  const app = await startApp({ ...engine.variables, CLOCK_FILE: file }, { imports: [shim] });
  const studio = await openStudio(app);
  const note = (text: string, key: string) =>
    studio.ask(`/recipes/${studio.recipe}/notes`, { json: { text }, key });
  const first = await note("Before the clock moved.", "before");
  await failToSignIn(studio, 10);

  await moveClock(-hour);
  const again = await note("Before the clock moved.", "before");
  promised(
    engine.name,
    "an hour back, a key that was used writes nothing",
    again.text === first.text,
    `${again.status}`,
  );
  const signedIn = await studio.ask("/account");
  promised(
    engine.name,
    "an hour back, whoever is signed in stays so",
    signedIn.status === 200,
    `${signedIn.status}`,
  );
  const held = await signIn(studio);
  const seconds = Number(held.headers.get("retry-after") ?? 0);
  promised(
    engine.name,
    "an hour back, ten failures hold nobody up for longer than a quarter of an hour",
    held.status === 200 || seconds <= 900,
    `${held.status}, again in ${seconds} s`,
  );
  await note("An hour back.", "back");

  await moveClock(22 * hour);
  const forward = await note("Before the clock moved.", "before");
  promised(
    engine.name,
    "twenty-two hours forward, it still writes nothing",
    forward.text === first.text,
    `${forward.status}`,
  );
  await moveClock(24 * hour);
  const dayLater = await studio.ask("/account");
  promised(
    engine.name,
    "a day forward, whoever is signed in stays so",
    dayLater.status === 200,
    `${dayLater.status}`,
  );
  await failToSignIn(studio, 3);

  await moveClock(1);
  const back = await signIn(studio);
  promised(
    engine.name,
    "back again, the right password lets in",
    back.status === 200,
    `${back.status}`,
  );
  const last = await note("Back where it was.", "last");
  const lastAgain = await note("Back where it was.", "last");
  promised(
    engine.name,
    "back again, a key writes once",
    last.status === 201 && last.text === lastAgain.text,
    `${last.status} and ${lastAgain.status}`,
  );
  await app.end("SIGTERM");
  await inOrder(engine);
  verifyClean(engine);
});
rmSync(folder, { recursive: true, force: true });

function signIn(studio: Studio, typed = password): Promise<Response> {
  // Another browser: signing in again would end the session of this one.
  return new Studio(studio.app).fetch("/session", { json: { email, password: typed } });
}

async function failToSignIn(studio: Studio, times: number): Promise<void> {
  for (let tried = 0; tried < times; tried += 1) await signIn(studio, "not-the-password");
}

/** Events stand in the order in which they happened, whatever the clock said, and so do their ids. */
async function inOrder(engine: Engine): Promise<void> {
  const { db, close } = await engine.open();
  const rows = await db
    .select({ id: events.id, at: events.at })
    .from(events)
    .orderBy(asc(events.seq));
  await close();
  const ids = rows.map(({ id }) => id);
  const back = rows.filter(({ at }, place) => at < (rows[place - 1]?.at ?? at)).length;
  promised(
    engine.name,
    "ids go up in the order of events though the clock went back",
    back > 0 && ids.join() === [...ids].sort().join(),
    `${ids.length} events, the clock went back ${back} times`,
  );
}
