import { existsSync, readFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { describe, expect, it } from "vitest";
import { readConfig } from "../../src/config.ts";

const root = resolve(import.meta.dirname, "../..");
const read = (path: string) => readFileSync(join(root, path), "utf8");

const dockerfile = read("Dockerfile");
const compose = read("docker-compose.yml");
const page = read("docs/running.md");

/** The lines of one service, from its name to the next. */
function service(name: string): string {
  const [, rest = ""] = compose.split(`\n  ${name}:\n`);
  return rest.split(/^ {0,2}\S/m)[0] ?? "";
}

/** What the app is told, with what `.env` may leave out as it is then. */
const told: Record<string, string> = Object.fromEntries(
  [...service("app").matchAll(/^ {6}([A-Z_]+): (.*)$/gm)].map(([, name = "", value = ""]) => [
    name,
    value.replace(/\$\{\w+:-([^}]*)\}/g, "$1").replace(/\$\{\w+:\?[^}]*\}/g, "word"),
  ]),
);

describe("the containers", () => {
  it("tell the app only what it reads, and what it can use", () => {
    const names = new Set(
      [...read("src/config.ts").matchAll(/^ {2}([A-Z_]+): z/gm)].map((m) => m[1]),
    );
    expect(names.size).toBeGreaterThan(10);
    expect(Object.keys(told).length).toBeGreaterThan(5);
    expect(Object.keys(told).filter((name) => !names.has(name))).toEqual([]);
    expect(readConfig(told)).toMatchObject({
      publicUrl: "https://localhost",
      backupDir: "/backups",
      smtpUrl: undefined,
    });
  });

  it("let the world in through the proxy alone, whose word on addresses is taken", () => {
    expect(service("proxy")).toMatch(/ports:\n {6}- "80:80"\n {6}- "443:443"\n/);
    for (const inside of ["app", "postgres"]) expect(service(inside)).not.toContain("ports:");
    const address = /ipv4_address: (\S+)/.exec(service("proxy"))?.[1];
    expect(told.TRUSTED_PROXIES).toBe(address);
    const net = /subnet: (\d+\.\d+\.\d+)\.0\/24/.exec(compose)?.[1];
    expect(address?.startsWith(`${net}.`)).toBe(true);
    expect(read("docker/Caddyfile")).toContain(`reverse_proxy app:${readConfig({}).port}\n`);
  });

  it("use files that are there", () => {
    const mounted = [...compose.matchAll(/- \.\/(\S+?):/g)].map(([, path = ""]) => path);
    expect(mounted).toHaveLength(2);
    expect(mounted.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });

  it("keep their volumes", () => {
    const volumes = [...compose.matchAll(/^ {6}- (\w+):\//gm)].map(([, name]) => name);
    const declared = [...(compose.split("\nvolumes:\n")[1] ?? "").matchAll(/^ {2}(\w+):$/gm)];
    expect(declared.map(([, name]) => name).sort()).toEqual(volumes.sort());
    expect(volumes).toContain("library");
  });
});

describe("the image", () => {
  const { compilerOptions } = JSON.parse(read("tsconfig.build.json"));
  /** A file of the build comes from one of `src` at the same place. */
  const source = (built: string) =>
    built.replace(`${compilerOptions.outDir}/`, "").replace(/\.js$/, ".ts");

  it("runs what the build makes, as nobody in particular", () => {
    expect(compilerOptions).toMatchObject({ outDir: "dist", rootDir: "." });
    const [, command = ""] = /^CMD \["node", "(.+)"\]$/m.exec(dockerfile) ?? [];
    expect(command).toMatch(/^dist\//);
    expect(existsSync(join(root, source(command)))).toBe(true);
    expect(dockerfile.indexOf("\nUSER node\n")).toBeGreaterThan(dockerfile.lastIndexOf("FROM"));
    const made = /mkdir (.+) && chown node:node (.+)/.exec(dockerfile);
    expect(made?.[1]).toBe(made?.[2]);
    expect(made?.[1]?.split(" ")).toContain(told.BACKUP_DIR);
  });

  it("has the migrations where the program looks for them", () => {
    const { build } = JSON.parse(read("package.json")).scripts;
    expect(build).toContain("cpSync('src/db/migrations', 'dist/src/db/migrations'");
    expect(read("src/db/client.ts")).toContain('new URL("./migrations", import.meta.url)');
    expect(dockerfile).toMatch(/RUN npm run build/);
  });

  it("is made of what is let into it, and every file of that is there", () => {
    const copied = [...dockerfile.matchAll(/^COPY (?!--from)(.+) \S+$/gm)].flatMap(
      ([, files = ""]) => files.split(" "),
    );
    const lines = read(".dockerignore").split("\n");
    const letIn = lines.filter((line) => line.startsWith("!")).map((line) => line.slice(1));
    expect(lines).toContain("*");
    expect([...new Set(copied)].sort()).toEqual([...letIn].sort());
    expect(copied.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });

  it("has every program that its page tells to run in it", () => {
    const programs = [...page.matchAll(/\bdist\/src\/\w+\.js/g)].map(([path]) => source(path));
    expect(programs.length).toBeGreaterThan(3);
    expect(programs.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});
