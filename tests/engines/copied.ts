import { readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { MemoryFS, PGlite } from "@electric-sql/pglite";
import { pg_trgm } from "@electric-sql/pglite/contrib/pg_trgm";

/** A database as its files, each by its path in the folder. */
export type Kept = { folders: string[]; files: [path: string, bytes: Uint8Array][] };

/** Read once a worker; a copy in memory takes a tenth of the time that reading it takes. */
const read = new Map<string, Kept>();

function readFolder(folder: string): Kept {
  const before = read.get(folder);
  if (before) return before;
  const kept: Kept = { folders: [], files: [] };
  for (const entry of readdirSync(folder, { recursive: true, withFileTypes: true })) {
    const path = join(entry.parentPath, entry.name);
    const inside = path.slice(folder.length);
    if (entry.isDirectory()) kept.folders.push(inside);
    else kept.files.push([inside, readFileSync(path)]);
  }
  read.set(folder, kept);
  return kept;
}

class CopiedFolder extends MemoryFS {
  readonly #kept: Kept;

  constructor(kept: Kept) {
    super();
    this.#kept = kept;
  }

  override async initialSyncFs() {
    const files = this.pg?.Module.FS;
    if (!files) throw new Error("the engine has no files yet");
    for (const folder of ["", ...this.#kept.folders]) files.mkdirTree(`${inMemory}${folder}`);
    for (const [path, bytes] of this.#kept.files)
      files.writeFile(`${inMemory}${path}`, new Uint8Array(bytes), { canOwn: true });
  }
}

/** Where the engine has its database among its own files. */
const inMemory = "/pglite/data";

/** 128 MB unless said, all of them cleared at each start: half of what opening a copy would take. */
const buffers = ["-c", "shared_buffers=16MB"];

/** The database of a folder, or one that was kept, copied into memory. */
export const openCopy = (from: string | Kept): Promise<PGlite> =>
  PGlite.create({
    extensions: { pg_trgm },
    fs: new CopiedFolder(typeof from === "string" ? readFolder(from) : from),
    startParams: [...PGlite.defaultStartParams, ...buffers],
  });

/** What a database in memory is now, for others to go on from. */
export async function keepFiles(client: PGlite): Promise<Kept> {
  await client.exec("checkpoint");
  const { FS } = client.Module;
  const kept: Kept = { folders: [], files: [] };
  const look = (folder: string): void => {
    for (const name of FS.readdir(`${inMemory}${folder}`)) {
      if (name === "." || name === "..") continue;
      const path = `${folder}/${name}`;
      if (FS.isDir(FS.stat(`${inMemory}${path}`).mode)) {
        kept.folders.push(path);
        look(path);
      } else kept.files.push([path, FS.readFile(`${inMemory}${path}`)]);
    }
  };
  look("");
  return kept;
}
