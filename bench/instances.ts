import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { acrossInstances } from "./instances/across.ts";
import { makeCluster } from "./instances/cluster.ts";
import { besideReplica } from "./instances/copied.ts";
import { killAtWork, killUnderLoad } from "./instances/killed.ts";
import { openStudio } from "./instances/person.ts";
import { listenForMail } from "./instances/post.ts";
import { brokenPromises, hold, promised } from "./instances/promises.ts";
import { startProxy } from "./instances/proxy.ts";
import { rollingUpgrade } from "./instances/upgrade.ts";
import { run, startApp } from "./sheets/app.ts";
import { freePort } from "./sheets/processes.ts";

/**
 * What holds where several instances run on one database: two of them behind a proxy, on a Postgres of
 * its own with a streaming replica, are asked, killed and upgraded. Each line says what was promised
 * and what happened; it ends with 1 where a promise was broken. It needs the programs of Postgres 15 or
 * later, and git for the upgrade.
 *
 *     npm run instances [-- --from <revision>]
 */
const { values } = parseArgs({ options: { from: { type: "string", default: "4b2279b" } } });

const metricsToken = "only-while-this-runs-0123";
const began = performance.now();
const cluster = await makeCluster();
const backups = await mkdtemp(join(tmpdir(), "bucket-backups-"));
const post = await listenForMail(await freePort());
const proxy = await startProxy(await freePort());

const variablesOf = (name: string) => ({
  DATABASE_URL: `${cluster.url}?application_name=${name}`,
  PUBLIC_URL: proxy.url,
  METRICS_TOKEN: metricsToken,
  BACKUP_DIR: backups,
  SMTP_URL: post.url,
  MAIL_FROM: "glazes@saltmarsh.example",
});
const start = (name: string, more: Record<string, string> = {}) =>
  startApp({ ...variablesOf(name), ...more }, { name });

/** Runs `npm run verify` on a database. @returns its last words. */
function verify(url: string): string {
  const { status, said } = run("verify", { DATABASE_URL: url });
  hold(status === 0, `verify ended with ${status}: ${said}`);
  return `verify: ${said.split("\n").at(-1)}`;
}

try {
  const [one, two] = await Promise.all([start("one"), start("two")]);
  proxy.to([one, two]);
  const { manager, member } = await openStudio(proxy.url, one);
  await member.send(proxy.url, "/account/mail", { mail: "at once" }, "PUT");
  await acrossInstances({ origin: proxy.url, instances: [one, two], manager, member });
  await killUnderLoad(proxy, [one, two], member);
  await two.end("SIGTERM");

  const survivor = await killAtWork({ url: cluster.url, backups, start });
  const again = await start("one");
  await promised("whoever wishes for mail is told once of what waits", async () => {
    await post.untilOne(80);
    hold(post.letters() === 1, `${post.letters()} letters came`);
    return "one letter, of the note that was put above";
  });
  await Promise.all([survivor.end("SIGTERM"), again.end("SIGTERM")]);

  const replica = { DATABASE_REPLICA_URL: cluster.replicaUrl };
  const instances = await Promise.all([start("one", replica), start("two", replica)]);
  proxy.to(instances);
  await besideReplica({ origin: proxy.url, instances, cluster, member, metricsToken });
  await promised("whoever was told by mail is not told again by other instances", async () => {
    hold(post.letters() === 1, `${post.letters()} letters came`);
    return "still one letter, after six starts";
  });
  await Promise.all(instances.map((instance) => instance.end("SIGTERM")));
  await promised("the record holds after all of that", async () => verify(cluster.url));

  await rollingUpgrade({ revision: values.from, url: cluster.url, verify });
} finally {
  await proxy.close();
  await post.close();
  await cluster.remove();
  await rm(backups, { recursive: true, force: true });
}
const broken = brokenPromises();
const seconds = ((performance.now() - began) / 1000).toFixed(0);
console.log(`${broken === 0 ? "all held" : `${broken} broken`}, after ${seconds} s`);
// Where a promise broke, an instance may still run: it ends with this process.
process.exit(broken === 0 ? 0 : 1);
