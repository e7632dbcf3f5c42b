import { execFileSync } from "node:child_process";
import { existsSync, readdirSync } from "node:fs";
import { join } from "node:path";

const needed = ["initdb", "pg_basebackup", "pg_ctl", "postgres"];

/** Where the programs of a Postgres server are: on the path, or where Debian keeps the newest of 15 or later. */
export function findPrograms(): string | undefined {
  const kept = "/usr/lib/postgresql";
  const debian = (existsSync(kept) ? readdirSync(kept) : [])
    .map(Number)
    .filter((version) => version >= 15)
    .sort((one, other) => other - one)
    .map((version) => join(kept, String(version), "bin"));
  return [...(process.env.PATH ?? "").split(":"), ...debian].find((folder) =>
    needed.every((program) => folder !== "" && existsSync(join(folder, program))),
  );
}

/** Postgres refuses to run as root, and then runs as its own user or as nobody. */
export function unprivileged(): { uid: number; gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const ask = (what: string, who: string) =>
    Number(
      execFileSync("id", [what, who], { encoding: "utf8", stdio: ["ignore", "pipe", "ignore"] }),
    );
  for (const who of ["postgres", "nobody"]) {
    try {
      return { uid: ask("-u", who), gid: ask("-g", who) };
    } catch {}
  }
  return undefined;
}
