import postgres from "postgres";
import { startApp } from "../sheets/app.ts";
import { onPostgres } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { type Answer, inWords, openStudio } from "./sheets/studio.ts";

const statementSeconds = 10;
/** Beside the bound itself: a busy machine takes its time. */
const slackSeconds = 5;

/** Every connection of the app waits for a lock that somebody else holds and does not give back. */
await onPostgres(async ({ name, variables, cluster }) => {
  const bounds = { STATEMENT_SECONDS: `${statementSeconds}` };
  const studio = await openStudio(await startApp({ ...variables, ...bounds }));
  const other = postgres(cluster.url, { max: 1, onnotice: () => {} });
  const holder = await other.reserve();
  await holder`begin`;
  await holder`lock table notes in access exclusive mode`;

  const json = { text: "What I saw." };
  const held = Array.from({ length: 40 }, () =>
    studio.ask(`/recipes/${studio.recipe}/notes`, { json }),
  );
  const others = Array.from({ length: 20 }, () =>
    studio.ask("/materials", { accept: "text/html" }),
  );
  const alive = await studio.ask("/healthz");
  promised(
    name,
    "/healthz answers meanwhile",
    alive.status === 200,
    `${alive.status} after ${alive.seconds.toFixed(2)} s`,
  );

  const answers = await Promise.all([...held, ...others]);
  const refused = answers.filter(({ status }) => status === 503);
  promised(
    name,
    "all of them end, those that waited for the lock refused in words",
    refused.length >= held.length && refused.every(inWords) && answers.every(is200or503),
    `${refused.length} of ${answers.length} refused, the rest answered`,
  );
  const longest = Math.max(...answers.map(({ seconds }) => seconds));
  const bound = statementSeconds + 5 + slackSeconds;
  promised(name, `nobody waits longer than ${bound} s`, longest < bound, `${longest.toFixed(1)} s`);

  await holder`rollback`;
  holder.release();
  const after = await studio.ask(`/recipes/${studio.recipe}/notes`, { json });
  promised(
    name,
    "once they are free it goes on",
    after.status === 201,
    `${after.status} after ${after.seconds.toFixed(1)} s`,
  );
  await other.end();
  await studio.app.end("SIGTERM");
});

function is200or503({ status }: Answer): boolean {
  return status === 200 || status === 503;
}
