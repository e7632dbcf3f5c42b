import { execFileSync } from "node:child_process";
import { mkdtemp, rm, symlink } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import postgres from "postgres";
import { type App, project, startApp } from "../sheets/app.ts";
import { freePort } from "../sheets/processes.ts";
import { until } from "../sheets/waiting.ts";
import { missingAt, publishing } from "./killed.ts";
import { openStudio, Person } from "./person.ts";
import { hold, promised } from "./promises.ts";
import { startProxy } from "./proxy.ts";

type Asked = {
  /** The version that is upgraded from. */
  revision: string;
  /** A Postgres where a database can be made. */
  url: string;
  verify: (url: string) => string;
};

const git = (...args: string[]) =>
  execFileSync("git", args, { cwd: project, encoding: "utf8" }).trim();

/** An earlier version and this one serve one database through a proxy, and then only this one. */
export async function rollingUpgrade({ revision, url, verify }: Asked): Promise<void> {
  const folder = join(await mkdtemp(join(tmpdir(), "bucket-before-")), "tree");
  git("worktree", "add", "--detach", folder, revision);
  const admin = postgres(url, { max: 1, onnotice: () => {} });
  const proxy = await startProxy(await freePort());
  try {
    await symlink(join(project, "node_modules"), join(folder, "node_modules"));
    await admin`create database upgraded`;
    const own = new URL(url);
    own.pathname = "/upgraded";
    const variables = { DATABASE_URL: own.href, PUBLIC_URL: proxy.url };
    const migrations = async () => {
      const client = postgres(own.href, { max: 1, onnotice: () => {} });
      const [row] = await client`select count(*)::int as n from drizzle.__drizzle_migrations`;
      await client.end();
      return Number(row?.n);
    };
    const words = git("log", "-1", "--format=%h of %cs", revision);
    await promised(`${words} and this version serve one database side by side`, async () => {
      const before = await startApp(variables, { name: "before", folder });
      const { member } = await openStudio(before.url, before);
      proxy.to([before]);
      const from = await migrations();
      const load = publishing({ origin: proxy.url, person: member, called: "Neap", writers: 3 });
      const reader = reading(proxy.url);
      const more = async (recipes: number) => {
        const start = load.acknowledged.length;
        await until("more recipes", async () => load.acknowledged.length >= start + recipes);
      };
      await more(10);
      const now = await startApp(variables, { name: "now" });
      const to = await migrations();
      proxy.to([before, now]);
      await more(60);
      proxy.to([now]);
      await before.end("SIGTERM");
      await more(10);
      const { acknowledged, refused, unanswered } = await load.stop();
      const { asked, failed } = await reader.stop();
      const faults = [...refused, ...failed];
      hold(
        faults.length === 0,
        `answers ${faults.slice(0, 8).join(" ")}; ${[before, now].map(broke)}`,
      );
      hold(unanswered === 0, `${unanswered} requests were broken off`);
      const missing = await missingAt(now.url, member, acknowledged);
      hold(missing === 0, `${missing} acknowledged recipes are gone`);
      await now.end("SIGTERM");
      const sound = verify(own.href);
      return `migrations ${from} to ${to} under way; ${acknowledged.length} recipes published and there, ${asked} pages read, none failed; ${sound}`;
    });
  } finally {
    await proxy.close();
    await admin.end();
    git("worktree", "remove", "--force", folder);
    await rm(join(folder, ".."), { recursive: true, force: true });
  }
}

/** What an instance told of requests in which something broke. */
const broke = ({ name, said }: App): string =>
  [name, ...new Set(said.match(/"broke":.*?(?="at")/g))].join(" ");

/** A visitor who reads pages that both versions have. */
function reading(origin: string) {
  const visitor = new Person("Visitor");
  const failed: string[] = [];
  let asked = 0;
  let under = true;
  const read = async () => {
    while (under)
      for (const path of ["/recipes", "/recipes/neap-1", "/tiles", "/materials/quartz"]) {
        const answer = visitor.ask(origin, path, { accept: "text/html" });
        const { status } = await answer.catch(() => ({ status: 0 }));
        asked += 1;
        if (status !== 200 && !(status === 404 && path.endsWith("neap-1")))
          failed.push(`${path} ${status}`);
      }
  };
  const working = read();
  const stop = async () => {
    under = false;
    await working;
    return { asked, failed };
  };
  return { stop };
}
