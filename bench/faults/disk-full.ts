import { mkdirSync, readdirSync } from "node:fs";
import { join } from "node:path";
import { type App, run, startApp } from "../sheets/app.ts";
import { waited } from "../sheets/waiting.ts";
import { mountSmall, type SmallDisk } from "./sheets/disk.ts";
import { type Engine, onEmbedded, onPostgres, verifyClean } from "./sheets/engines.ts";
import { leftOut, promised } from "./sheets/promises.ts";
import { type Answer, inWords, openStudio, type Studio } from "./sheets/studio.ts";
import { nothingHalfWritten } from "./sheets/writing.ts";

/** Small files of the log of changes, so that little room is enough to see what happens without any. */
const settings = ["max_wal_size=32MB", "min_wal_size=32MB", "shared_buffers=16MB"];

await onSmallDisk(200, (disk) => onEmbedded((engine) => fillUp(engine, disk), disk.folder));
await onSmallDisk(150, (disk) =>
  onPostgres((engine) => fillUp(engine, disk), { folder: disk.folder, settings }),
);

async function onSmallDisk(megabytes: number, fault: (disk: SmallDisk) => Promise<void>) {
  const disk = mountSmall(megabytes);
  if ("why" in disk) return leftOut("a full disk", `none can be mounted here (${disk.why})`);
  try {
    await fault(disk);
  } finally {
    disk.unmount();
  }
}

/** Notes until one is refused for want of room, then what can still be read, then room again. */
async function fillUp(engine: Engine, disk: SmallDisk): Promise<void> {
  const { name, variables } = engine;
  const studio = await openStudio(await startApp(variables));
  const kept: string[] = [];
  const write = async () => {
    const json = { text: `${kept.length} `.padEnd(7000, "what I saw ") };
    const answer = await studio.ask(`/recipes/${studio.recipe}/notes`, { json });
    if (answer.status === 201) kept.push(JSON.parse(answer.text).id);
    return answer;
  };
  await write();
  disk.fill();
  const refused = await untilRefused(write);
  promised(
    name,
    "a write without room is refused in words",
    refused !== undefined && [503, 507].includes(refused.status) && inWords(refused),
    `${refused?.status ?? "none was"} after ${kept.length} notes: ${refused?.text.slice(0, 160)}`,
  );
  const read = await studio.ask(`/recipes/${studio.recipe}`).catch(String);
  const reads = typeof read === "string" ? read : `${read.status}`;
  promised(name, "what is there can be read meanwhile", reads === "200", reads);
  if (engine.cluster) noHalfBackup(engine, disk);

  disk.clear();
  await goOn(studio, studio.app, name);
  const there = await idsOf(studio);
  const lost = kept.filter((id) => !there.has(id)).length;
  promised(name, "nothing acknowledged is lost", lost === 0, `${kept.length} kept, ${lost} lost`);
  await studio.app.end("SIGTERM");
  await nothingHalfWritten(engine);
  verifyClean(engine);
}

async function untilRefused(write: () => Promise<Answer>): Promise<Answer | undefined> {
  for (let times = 0; times < 400; times += 1) {
    const answer = await write();
    if (answer.status !== 201) return answer;
  }
  return undefined;
}

async function goOn(studio: Studio, app: App, where: string): Promise<void> {
  const json = { text: "There is room again." };
  const went = await waited(async () => {
    const put = await studio
      .ask(`/recipes/${studio.recipe}/notes`, { json })
      .catch(() => undefined);
    return put?.status === 201;
  }, 30);
  promised(
    where,
    "with room again it goes on without a restart",
    went.came && app.runs,
    `a note after ${went.seconds.toFixed(1)} s`,
  );
}

async function idsOf(studio: Studio): Promise<Set<string>> {
  const { text } = await studio.ask(`/recipes/${studio.recipe}/notes`);
  return new Set((JSON.parse(text).items as { id: string }[]).map(({ id }) => id));
}

/** Into the disk that is full: no file of the name that a backup has. */
function noHalfBackup({ name, variables }: Engine, disk: SmallDisk): void {
  const folder = join(disk.folder, "backups");
  mkdirSync(folder, { recursive: true });
  const { status, said } = run("backup", variables, [folder]);
  const left = readdirSync(folder);
  promised(
    name,
    "a backup without room fails in words and leaves nothing",
    status === 1 && left.length === 0,
    `${said.split("\n")[0]}; left: ${left.join(" ") || "nothing"}`,
  );
}
