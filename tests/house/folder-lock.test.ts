import { spawn } from "node:child_process";
import { mkdtemp, readFile, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { openEmbedded } from "../../src/db/embedded.ts";
import { lockFolder } from "../../src/db/folder-lock.ts";

describe("the lock on an embedded database's folder", () => {
  let folder: string;
  beforeAll(async () => {
    folder = await mkdtemp(join(tmpdir(), "bucket-lock-"));
  });
  afterAll(() => rm(folder, { recursive: true, force: true }));

  it("keeps a second process out and tells it who is there", async () => {
    const other = spawn(process.execPath, ["-e", "setTimeout(() => {}, 30000)"]);
    await writeFile(join(folder, "in-use-by"), `${other.pid}\n`);
    await expect(lockFolder(folder)).rejects.toThrow(`in use by process ${other.pid}`);
    const gone = new Promise((resolve) => other.once("exit", resolve));
    other.kill();
    await gone;
    const unlock = await lockFolder(folder);
    expect((await readFile(join(folder, "in-use-by"), "utf8")).trim()).toBe(String(process.pid));
    await unlock();
  });

  it("is taken over where it says nothing that can be read", async () => {
    await writeFile(join(folder, "in-use-by"), "");
    const unlock = await lockFolder(folder);
    await unlock();
    await expect(readFile(join(folder, "in-use-by"))).rejects.toThrow("ENOENT");
  });

  it("refuses a folder that another major version wrote, and gives it free again", async () => {
    await writeFile(join(folder, "engine-version"), "19\n");
    await expect(openEmbedded(folder)).rejects.toThrow("restore from a backup");
    await expect(readFile(join(folder, "in-use-by"))).rejects.toThrow("ENOENT");
  });
});
