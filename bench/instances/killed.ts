import { mkdir, readdir, rm } from "node:fs/promises";
import postgres from "postgres";
import type { App } from "../sheets/app.ts";
import { until } from "../sheets/waiting.ts";
import { type Person, publish } from "./person.ts";
import { hold, promised } from "./promises.ts";
import type { Between } from "./proxy.ts";

type Load = { origin: string; person: Person; called: string; writers: number };

/** Several who publish through a proxy until they are told to stop. */
export function publishing({ origin, person, called, writers }: Load) {
  const acknowledged: string[] = [];
  const refused: number[] = [];
  let unanswered = 0;
  let made = 0;
  let under = true;
  const write = async () => {
    while (under) {
      made += 1;
      const answer = await publish(person, origin, `${called} ${made}`);
      if (!answer) unanswered += 1;
      else if ("refused" in answer) refused.push(answer.refused);
      else acknowledged.push(answer.slug);
    }
  };
  const working = Promise.all(Array.from({ length: writers }, write));
  const stop = async () => {
    under = false;
    await working;
    return { acknowledged, refused, unanswered };
  };
  return { acknowledged, stop };
}

/** How many of these recipes an instance does not have. */
export async function missingAt(url: string, person: Person, slugs: readonly string[]) {
  let missing = 0;
  for (const slug of slugs)
    if ((await person.ask(url, `/recipes/${slug}`)).status !== 200) missing += 1;
  return missing;
}

/** An instance is killed while eight people publish through the proxy. */
export async function killUnderLoad(
  proxy: Between,
  [one, other]: readonly [App, App],
  person: Person,
): Promise<void> {
  await promised(
    "what was acknowledged is there, though an instance is killed meanwhile",
    async () => {
      const load = publishing({ origin: proxy.url, person, called: "Spring Tide", writers: 8 });
      await until("forty recipes", async () => load.acknowledged.length >= 40);
      await one.end("SIGKILL");
      const before = load.acknowledged.length;
      await until("forty more", async () => load.acknowledged.length >= before + 40);
      const { acknowledged, refused, unanswered } = await load.stop();
      hold(refused.length === 0, `answers ${refused.join(" ")}`);
      const missing = await missingAt(other.url, person, acknowledged);
      hold(missing === 0, `${missing} of ${acknowledged.length} acknowledged recipes are gone`);
      return `killed after ${before}, the other went on alone: ${acknowledged.length} acknowledged and there, ${unanswered} broken off without an answer, none refused`;
    },
  );
}

type Jobs = {
  url: string;
  backups: string;
  start: (name: string) => Promise<App>;
};

/**
 * An instance is killed while it backs up, works chemistry out anew and settles. A table that these
 * read is locked from outside, so that it is in the midst of them for certain.
 */
export async function killAtWork({ url, backups, start }: Jobs): Promise<App> {
  const client = postgres(url, { max: 2, onnotice: () => {} });
  await rm(backups, { recursive: true, force: true });
  await mkdir(backups);
  await client`update chemistries set engine = '0.9.0'
    where revision_id in (select revision_id from chemistries order by revision_id limit 90)`;
  await client`update revision_standings set unsettled = true`;
  const stale = async () =>
    (await client`select count(*)::int as n from chemistries where engine = '0.9.0'`)[0]?.n;
  const unsettled = async () =>
    (await client`select count(*)::int as n from revision_standings where unsettled`)[0]?.n;
  const isSo = async (which: postgres.PendingQuery<postgres.Row[]>) => (await which).length > 0;
  const chemistryWaits = () =>
    isSo(client`select 1 from pg_stat_activity where wait_event_type = 'Lock'
      and pid in (select pid from pg_locks where relation = 'chemistries'::regclass)`);
  const backupHasTurn = () =>
    isSo(
      client`select 1 from pg_locks where locktype = 'advisory' and objid = 7263405 and granted`,
    );
  const zips = async () => (await readdir(backups)).filter((name) => name.endsWith(".zip")).length;

  let other: App | undefined;
  const held = client.begin(async (tx) => {
    await tx`lock table revision_lines in access exclusive mode`;
    const one = await start("one");
    await until("the first is in the midst of chemistry", chemistryWaits);
    await until("the first is in the midst of a backup", backupHasTurn);
    other = await start("two");
    await one.end("SIGKILL");
  });
  await held;
  const survivor = other as App | undefined;
  if (!survivor) throw new Error("the second instance did not start");

  await promised(
    "a backup that was under way is taken on by the other instance, once",
    async () => {
      const took = await until("a backup", async () => (await zips()) > 0);
      hold((await zips()) === 1, `${await zips()} backups are there`);
      return `one backup, ${took.toFixed(0)} s after the first was killed (it looks again every 20 s)`;
    },
  );
  await promised("chemistry that was under way is worked out by the other instance", async () => {
    const took = await until(
      "no chemistry of an earlier engine",
      async () => (await stale()) === 0,
    );
    return `90 revisions, ${took.toFixed(0)} s later (it looks again every 30 s)`;
  });
  await promised("what revisions count as is settled by the other instance", async () => {
    const took = await until("nothing is unsettled", async () => (await unsettled()) === 0);
    return `all of them, ${took.toFixed(0)} s later (it looks again every 5 s)`;
  });
  await client.end();
  return survivor;
}
