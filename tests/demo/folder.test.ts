import { mkdir, mkdtemp, readdir, rm, stat, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { lockFolder } from "../../src/db/folder-lock.ts";
import {
  beginAgain,
  isUnfinished,
  markFinished,
  markUnfinished,
} from "../../src/demo/beginning-again.ts";
import { keepPassword, makeUpPassword, readPassword } from "../../src/demo/password.ts";
import { readSettings } from "../../src/demo/settings.ts";

describe("the demo's folder", () => {
  let folder: string;
  beforeEach(async () => {
    folder = await mkdtemp(join(tmpdir(), "bucket-demo-"));
  });
  afterEach(() => rm(folder, { recursive: true, force: true }));

  it("keeps the password for its owner's eyes alone", async () => {
    const inside = join(folder, "new");
    expect(await readPassword(inside)).toBeUndefined();
    const password = makeUpPassword();
    await keepPassword(inside, password);
    expect(await readPassword(inside)).toBe(password);
    expect((await stat(join(inside, "demo-password"))).mode & 0o777).toBe(0o600);
  });

  it("makes up fourteen letters and digits, another each time", () => {
    const passwords = Array.from({ length: 50 }, makeUpPassword);
    expect(new Set(passwords).size).toBe(50);
    for (const password of passwords) expect(password).toMatch(/^[a-z2-9]{14}$/);
  });

  it("loses the database and the password when it begins again, and nothing else", async () => {
    await keepPassword(folder, "something to type");
    await mkdir(join(folder, "pg"));
    await writeFile(join(folder, "engine-version"), "18\n");
    await writeFile(join(folder, "letter.txt"), "mine");
    await beginAgain(folder);
    expect(await readdir(folder)).toEqual(["letter.txt"]);
  });

  it("says until the end that it is unfinished, and begins again with nothing of it", async () => {
    await keepPassword(folder, "something to type");
    expect(await isUnfinished(folder)).toBe(false);
    await markUnfinished(folder);
    expect(await isUnfinished(folder)).toBe(true);
    await beginAgain(folder);
    expect(await readdir(folder)).toEqual([]);
    await markUnfinished(folder);
    await markFinished(folder);
    expect(await isUnfinished(folder)).toBe(false);
  });

  it("is as new already where nothing is", async () => {
    await beginAgain(folder);
    await beginAgain(join(folder, "nowhere"));
    expect(await readdir(folder)).toEqual([]);
  });

  it("leaves a studio's folder alone", async () => {
    await mkdir(join(folder, "pg"));
    await expect(beginAgain(folder)).rejects.toThrow("not made by the demo");
    expect(await readdir(folder)).toEqual(["pg"]);
  });

  it("does not begin again under a process that has it open", async () => {
    await keepPassword(folder, "something to type");
    // The process that started this one runs for as long as the test does.
    await writeFile(join(folder, "in-use-by"), `${process.ppid}\n`);
    await expect(beginAgain(folder)).rejects.toThrow(`process ${process.ppid}`);
    expect(await readPassword(folder)).toBe("something to type");
    await rm(join(folder, "in-use-by"));
    await (await lockFolder(folder))();
  });
});

describe("what the demo is started with", () => {
  it("has a folder of its own unless another is named", () => {
    expect(readSettings([], {}).config.dataDir).toBe("data/demo");
    expect(readSettings([], { DATA_DIR: "elsewhere" }).config.dataDir).toBe("elsewhere");
    expect(readSettings([], { STUDIO_NAME: "Mine" }).config.studioName).toBe(
      "Saltmarsh Lane Studio",
    );
  });

  it("takes --fresh and --recipes", () => {
    expect(readSettings(["--fresh", "--recipes", "300"], {})).toMatchObject({
      fresh: true,
      recipes: 300,
    });
    expect(readSettings([], {})).toMatchObject({ fresh: false, recipes: 0 });
  });

  it.each([["--recipes", "many"], ["--recipes=-1"], ["--recipes", "1e3"], ["--frsh"], ["extra"]])(
    "refuses %s %s",
    (...given) => {
      expect(() => readSettings(given, {})).toThrow();
    },
  );

  it("never deletes what is on a server", () => {
    const variables = { DATABASE_URL: "postgres://127.0.0.1/test" };
    expect(() => readSettings(["--fresh"], variables)).toThrow("touches no server");
  });
});
