import postgres from "postgres";
import type { App } from "../sheets/app.ts";
import { until } from "../sheets/waiting.ts";
import type { Cluster } from "./cluster.ts";
import { Person, publish } from "./person.ts";
import { hold, promised } from "./promises.ts";

type Room = {
  origin: string;
  instances: readonly App[];
  cluster: Cluster;
  member: Person;
  metricsToken: string;
};

type Found = { items: { slug: string }[] };

/** Lists are read from a replica that follows, stands still, dies and comes back. */
export async function besideReplica(room: Room): Promise<void> {
  const { origin, instances, cluster, member, metricsToken } = room;
  const visitor = new Person("Visitor");
  const replicaIs = async (is: string) => {
    const said = await Promise.all(
      instances.map(({ url }) => visitor.get<{ replica?: string }>(url, "/readyz")),
    );
    return said.every(({ replica }) => replica === is);
  };
  const readFromReplica = async () => {
    const counts = await Promise.all(
      instances.map(async ({ url }) => {
        const headers = { authorization: `Bearer ${metricsToken}` };
        const text = await (await fetch(`${url}/metrics`, { headers })).text();
        return Number(/^bucket_lists_total\{read="replica"\} (\d+)/m.exec(text)?.[1] ?? 0);
      }),
    );
    return counts.reduce((sum, count) => sum + count, 0);
  };
  const sees = async (person: Person, slug: string) => {
    const { items } = await person.get<Found>(origin, `/recipes?q=${slug.replaceAll("-", "+")}`);
    return items.some((item) => item.slug === slug);
  };
  const putOut = async (name: string) => {
    const published = await publish(member, origin, name);
    if (!published || "refused" in published) throw new Error(`${name} was not published`);
    return published.slug;
  };

  await promised("lists are read from the replica", async () => {
    await until("both read the replica", () => replicaIs("read"));
    const before = await readFromReplica();
    for (let asked = 0; asked < 30; asked += 1)
      for (const path of ["/recipes", "/tiles", "/materials"]) await visitor.get(origin, path);
    const read = (await readFromReplica()) - before;
    hold(read >= 85, `${read} of 90 were`);
    return `${read} of 90 were, counted by both instances`;
  });

  await promised("whoever wrote sees it in the next list, at either instance", async () => {
    for (let made = 1; made <= 20; made += 1) {
      const slug = await putOut(`Own Words ${made}`);
      hold(await sees(member, slug), `${slug} was not in the list right after`);
    }
    return "20 of 20 recipes were in the list that was asked for right after";
  });

  const replica = postgres(cluster.replicaUrl, { max: 1, onnotice: () => {} });
  await promised("a replica that stands still makes no list older than about 5 s", async () => {
    await replica`select pg_wal_replay_pause()`;
    const slug = await putOut("Slack Ebb");
    hold(await sees(member, slug), "who wrote it did not see it");
    const took = await until("a visitor sees it", () => sees(visitor, slug), 20);
    hold(took < 7, `a visitor saw it after ${took.toFixed(1)} s`);
    // Each looks twice a second, so that one may still have to.
    await until("both say that it is behind", () => replicaIs("behind"), 3);
    await replica`select pg_wal_replay_resume()`;
    const again = await until("it is read again", () => replicaIs("read"));
    return `who wrote it saw it at once, a visitor after ${took.toFixed(1)} s; ${again.toFixed(1)} s after it went on it was read again`;
  });
  await replica.end();

  await promised(
    "nobody's request fails when the replica dies, nor when it comes back",
    async () => {
      let under = true;
      let asked = 0;
      let slowest = 0;
      const failed: number[] = [];
      const read = async () => {
        while (under) {
          const start = performance.now();
          const { status } = await visitor.ask(origin, "/recipes");
          asked += 1;
          slowest = Math.max(slowest, performance.now() - start);
          if (status !== 200) failed.push(status);
        }
      };
      const reading = Promise.all([read(), read(), read()]);
      await cluster.killReplica();
      const told = await until("both say that it is away", () => replicaIs("away"));
      await cluster.startReplica();
      const back = await until("both read it again", () => replicaIs("read"));
      under = false;
      await reading;
      hold(failed.length === 0, `${failed.length} of ${asked} lists failed: ${failed.slice(0, 5)}`);
      return `${asked} lists, none failed, the slowest took ${slowest.toFixed(0)} ms; away was said after ${told.toFixed(1)} s, read again ${back.toFixed(1)} s after it was back`;
    },
  );
}
