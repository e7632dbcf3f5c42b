import { spawnSync } from "node:child_process";
import {
  closeSync,
  fstatSync,
  mkdtempSync,
  openSync,
  rmSync,
  statfsSync,
  writeSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

/** A disk of so many megabytes in memory, or why there is none. */
export function mountSmall(megabytes: number): SmallDisk | { why: string } {
  const folder = mkdtempSync(join(tmpdir(), "bucket-disk-"));
  const options = ["-t", "tmpfs", "-o", `size=${megabytes}m,mode=0755`, "tmpfs", folder];
  const { status, stderr, error } = spawnSync("mount", options, { encoding: "utf8" });
  if (status === 0) return new SmallDisk(folder);
  rmSync(folder, { recursive: true, force: true });
  return { why: error?.message ?? stderr.trim() };
}

export class SmallDisk {
  readonly folder: string;
  #mounted = true;

  constructor(folder: string) {
    this.folder = folder;
    process.once("exit", () => this.unmount());
  }

  get freeMegabytes(): number {
    const { bavail, bsize } = statfsSync(this.folder);
    return (bavail * bsize) / 1024 / 1024;
  }

  /** Takes up all that is left but so many megabytes. @returns how many it took. */
  fill(leave = 0): number {
    const ballast = openSync(join(this.folder, "ballast"), "a");
    const block = Buffer.alloc(64 * 1024);
    try {
      while (this.freeMegabytes > leave) writeSync(ballast, block);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== "ENOSPC") throw error;
    }
    const { size } = fstatSync(ballast);
    closeSync(ballast);
    return size / 1024 / 1024;
  }

  clear(): void {
    rmSync(join(this.folder, "ballast"), { force: true });
  }

  unmount(): void {
    if (!this.#mounted) return;
    this.#mounted = false;
    spawnSync("umount", ["--lazy", this.folder]);
    rmSync(this.folder, { recursive: true, force: true });
  }
}
