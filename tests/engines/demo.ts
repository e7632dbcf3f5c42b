import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import type { TestProject } from "vitest/node";
import { runDemo } from "../browser/running.ts";

declare module "vitest" {
  interface ProvidedContext {
    demo: string;
  }
}

/** A demo that was started once and ended; each test file goes on with a copy of its folder. */
export default async function madeDemo(project: TestProject) {
  const folder = await mkdtemp(join(tmpdir(), "bucket-made-demo-"));
  const demo = await runDemo(folder);
  await demo.end();
  project.provide("demo", folder);
  return () => rm(folder, { recursive: true, force: true });
}
