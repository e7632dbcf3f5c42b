import { readConfig } from "../../src/config.ts";
import { serveStudio } from "../../src/serve.ts";

/**
 * The studio as it is served anywhere, in a process that its parent can ask what it holds: told
 * `memory`, it collects what is garbage and answers with what is left. Needs `--expose-gc`.
 */
export type Memory = { heap: number; resident: number };
export type Told = { kind: "serving"; url: string; invite: string } | ({ kind: "memory" } & Memory);

const studio = await serveStudio(readConfig(process.env));
const [, invite] = /invite=(\S+)/.exec(studio.welcome.join("\n")) ?? [];
if (!invite) throw new Error("this studio is nobody's first: a soak begins with an empty one");

process.on("message", (asked) => {
  if (asked !== "memory") return;
  // What the first one frees may have kept something else alive until then.
  for (let time = 0; time < 3; time += 1) globalThis.gc?.();
  const { heapUsed, rss } = process.memoryUsage();
  tell({ kind: "memory", heap: heapUsed, resident: rss });
});
tell({ kind: "serving", url: `http://127.0.0.1:${new URL(studio.url).port}`, invite });

function tell(told: Told): void {
  process.send?.(told);
}
