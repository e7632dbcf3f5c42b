import { readdirSync, readFileSync } from "node:fs";
import { join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "../..");

/** What each room may import: folders of ours, and packages by the beginning of their names. */
const rooms: Record<string, { folders: string[]; packages: RegExp }> = {
  "src/chem": { folders: ["src/chem"], packages: /^(decimal\.js|culori)$/ },
  "src/db": {
    folders: ["src/db", "src/chem", "src/config.ts"],
    packages:
      /^(drizzle-orm|postgres|@electric-sql|decimal\.js|uuid|canonicalize|fastest-levenshtein|node:)/,
  },
  "src/wire": {
    folders: ["src/wire", "src/db", "src/chem", "src/config.ts", "src/auth.ts", "views"],
    packages: /^(csv-parse\/sync|hono|@hono|zod|decimal\.js|proxy-addr|node:)/,
  },
  "src/routes": {
    folders: ["src/routes", "src/wire", "src/db", "src/chem", "src/work", "src/auth.ts", "views"],
    packages: /^(hono|zod|decimal\.js|uuid|node:)/,
  },
  "src/work": {
    folders: ["src/work", "src/db", "src/chem"],
    packages:
      /^(sharp|zod|yazl|yauzl|p-limit|nodemailer|pino|prom-client|highs|lean-qr|decimal\.js|@node-rs\/argon2|node:)/,
  },
  views: { folders: ["views", "src/chem"], packages: /^(hono\/jsx|decimal\.js)/ },
};

const filesIn = (folder: string): string[] =>
  readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(folder, name));

/** Imports as the formatter writes them: the end of a statement, or one that is loaded late. */
const importsOf = (file: string): string[] =>
  [
    ...readFileSync(join(root, file), "utf8").matchAll(
      /^(?:(?:import|export) .*from |\} from |import )"([^"]+)";$|\bimport\("([^"]+)"\)/gm,
    ),
  ].map(([, named, lazy]) => named ?? lazy ?? "");

function strays(room: string): string[] {
  const { folders, packages } = rooms[room]!;
  return filesIn(room).flatMap((file) =>
    importsOf(file)
      .filter((name) => {
        if (!name.startsWith(".")) return !packages.test(name);
        const target = relative(root, resolve(root, file, "..", name));
        return !folders.some((folder) => target === folder || target.startsWith(`${folder}/`));
      })
      .map((name) => `${file} imports ${name}`),
  );
}

describe("the rooms", () => {
  it.each(Object.keys(rooms))("%s imports only what it may", (room) => {
    expect(filesIn(room).length).toBeGreaterThan(1);
    expect(strays(room)).toEqual([]);
  });

  it("keeps SQL out of the routes", () => {
    const routes = filesIn("src/routes").flatMap((file) =>
      importsOf(file).filter((name) => /drizzle|db\/schema/.test(name)),
    );
    expect(routes).toEqual([]);
  });

  it("has lucia in one file", () => {
    const knows = [...filesIn("src"), ...filesIn("views")].filter((file) =>
      importsOf(file).some((name) => /lucia/.test(name)),
    );
    expect(knows).toEqual(["src/auth.ts"]);
  });
});
