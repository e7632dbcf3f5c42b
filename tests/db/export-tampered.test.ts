import { readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { findOccupied } from "../../src/db/restoring.ts";
import { restoreLibrary } from "../../src/work/restoring.ts";
import { openTestDatabase } from "../engines/open.ts";
import { exportOf, type Files, filesIn, zipOf } from "../exports.ts";
import { openSmallStudio } from "../made-export.ts";
import { dataOf, fitted, flipped, overwritten, withRow } from "../tampering.ts";

const now = new Date("2026-11-28T09:00:00Z");

let target: Database;
let zip: Buffer;
let files: Files;
beforeAll(async () => {
  const studio = await openSmallStudio();
  zip = await exportOf(studio.db);
  files = await filesIn(zip);
  await studio.close();
  target = await openTestDatabase();
});
afterAll(() => target.close());

/** What a file is refused with; fails where it is taken, or where something of it was written. */
async function refusalOf(bytes: Buffer, manager?: string): Promise<string> {
  const restored = await restoreLibrary(target.db, { bytes }, { now, manager });
  if (restored.kind !== "refused") throw new Error("it was taken");
  expect(await findOccupied(target.db)).toBeUndefined();
  expect(restored.says).toMatch(/\.$/);
  return restored.says;
}

const names = () => [...files.keys()];
const pictureOf = () => names().find((name) => name.startsWith("pictures/")) ?? "";
const reportOf = () => names().find((name) => name.startsWith("reports/")) ?? "";

describe("a file that was damaged on the way", () => {
  it("is refused by the name of the file where any of its bytes changed", async () => {
    expect(names().length).toBeGreaterThan(80);
    for (const name of names()) {
      const says = await refusalOf(flipped(zip, dataOf(zip, name)));
      expect(says, name).toContain(name);
    }
  });

  it("is refused where it ends early, is empty or is something else", async () => {
    for (const share of [0, 0.01, 0.5, 0.9, 0.999])
      expect(await refusalOf(zip.subarray(0, Math.floor(zip.length * share)))).toMatch(
        /no whole zip file/,
      );
    expect(await refusalOf(Buffer.from("id,name\n1,Slack Water\n"))).toMatch(/no whole zip file/);
  });

  it("is refused where a file is missing, whichever it is", async () => {
    for (const name of names()) {
      const rest = [...files].filter(([other]) => other !== name);
      const says = await refusalOf(await zipOf(rest));
      expect(says).toContain(name);
      expect(says).toMatch(/is missing|is not the last file/);
    }
  });

  it("is refused where files stand in another order, twice, or beside others", async () => {
    const all = [...files];
    const swapped = [all[1]!, all[0]!, ...all.slice(2)];
    expect(await refusalOf(await zipOf(swapped))).toMatch(/does not stand in its place/);
    expect(await refusalOf(await zipOf([all[0]!, ...all]))).toMatch(/people.jsonl is in it twice/);
    const more: [string, Buffer][] = [["readme.txt", Buffer.from("read me")], ...all];
    expect(await refusalOf(await zipOf(more))).toMatch(/“readme.txt” does not belong in here/);
  });
});

describe("a file that somebody made to do harm", () => {
  it.each([
    ["../../evil.jpg", /evil|invalid|relative/i],
    ["/tmp/evil1.jpg", /evil|invalid|absolute/i],
    ["C:/tmp/evil.jpg", /evil|invalid|absolute/i],
    ["..\\..\\evil.jpg", /evil|invalid/i],
  ])("is refused with a file called %s", async (name, says) => {
    const harmless = "z".repeat(name.length);
    const more: [string, Buffer][] = [[harmless, Buffer.from("x")], ...files];
    expect(await refusalOf(overwritten(await zipOf(more), harmless, name))).toMatch(says);
  });

  it("is refused before it unpacks to a hundred megabytes", async () => {
    const bomb = Buffer.alloc(100 * 1024 * 1024, 0x20);
    const made = await fitted(files, (changed) => changed.set("people.jsonl", bomb));
    expect(made.length).toBeLessThan(1024 * 1024);
    expect(await refusalOf(made)).toMatch(/people.jsonl would unpack to more than 200 times/);
  });

  it("is refused where a file unpacks to more than the zip says", async () => {
    const people = files.get("people.jsonl") ?? Buffer.of();
    const made = await fitted(
      files,
      () => {},
      (manifest) => {
        manifest.entries[0]!.bytes = 10;
      },
    );
    const lie = Buffer.from(made);
    const size = Buffer.alloc(4);
    size.writeUInt32LE(people.length);
    const listed = lie.indexOf("PK\x01\x02");
    expect(lie.readUInt32LE(listed + 24)).toBe(people.length);
    lie.writeUInt32LE(10, listed + 24);
    expect(await refusalOf(lie)).toMatch(/people.jsonl is damaged: too many bytes/);
  });

  it("is refused where a line has no end", async () => {
    const long = Buffer.from(
      `{"a":"${"xy".repeat(9 * 1024 * 1024)}"}\n`.replace(/xy/g, () => "xy"),
    );
    const noise = Buffer.concat([long, files.get("people.jsonl") ?? Buffer.of()]);
    const made = await fitted(files, (changed) => changed.set("people.jsonl", noise));
    expect(await refusalOf(made)).toMatch(/people.jsonl/);
  });
});

type Row = Record<string, unknown>;

describe("a file whose manifest fits and whose rows do not", () => {
  const line = (place: number, noun = "people") => new RegExp(`^${noun}.jsonl, line ${place}`);
  const cases: [string, string, (row: Row, line: string) => unknown, RegExp][] = [
    [
      "a field that there is not",
      "people",
      (row) => {
        row.passwordHash = "x";
      },
      line(1),
    ],
    [
      "a field that is missing",
      "people",
      (row) => {
        delete row.name;
      },
      /line 1, name/,
    ],
    [
      "a word that is not known",
      "people",
      (row) => {
        row.role = "owner";
      },
      /line 1, role/,
    ],
    [
      "a number for a text",
      "people",
      (row) => {
        row.name = 7;
      },
      /line 1, name/,
    ],
    [
      "a day that there is not",
      "people",
      (row) => {
        row.joinedAt = "2026-02-30T00:00:00.000Z";
      },
      /joinedAt/,
    ],
    [
      "a moment in another form",
      "people",
      (row) => {
        row.joinedAt = "2026-02-03T00:00:00Z";
      },
      /joinedAt/,
    ],
    [
      "half a sign",
      "people",
      (_, text) => text.replace(/"name":"/, '"name":"\\ud800'),
      /line 1, name/,
    ],
    ["a NUL", "people", (_, text) => text.replace(/"name":"/, '"name":"\\u0000'), /line 1, name/],
    [
      "a name twice in one row",
      "people",
      (_, text) => text.replace(/^\{/, '{"role":"member",'),
      /as an export writes it/,
    ],
    ["spaces between", "people", (_, text) => text.replace(/:/, ": "), /as an export writes it/],
    ["no JSON", "people", () => "not a row", /it is not JSON/],
    ["deep nesting", "people", () => "[".repeat(200_000), line(1)],
    ["a list for a row", "people", () => "[]", line(1)],
    [
      "zeros at an end",
      "lots",
      (row) => {
        row.packPrice = "9.50";
      },
      /packPrice/,
    ],
    [
      "more places than there are",
      "lots",
      (row) => {
        row.packPrice = "9.51234";
      },
      /packPrice/,
    ],
    [
      "a number that is none",
      "lots",
      (row) => {
        row.packPrice = "NaN";
      },
      /packPrice/,
    ],
    [
      "a price below nothing",
      "lots",
      (row) => {
        row.packPrice = "-1";
      },
      /the database refuses it \(lots_/,
    ],
    [
      "nobody for whom it was",
      "lots",
      (row) => {
        row.by = "00000000-0000-7000-8000-000000000009";
      },
      /^lots.jsonl, lines 1 to 1: the database refuses it/,
    ],
    [
      "a row of another's key",
      "revisions",
      (row) => {
        row.digest = "0".repeat(64);
      },
      /^revisions.jsonl, .*digest/,
    ],
    [
      "an event that was changed",
      "events",
      (row) => {
        row.kind = "nothing";
      },
      /chain of events does not hold: event 1 was changed/,
    ],
    [
      "a picture that is not there",
      "pictureBytes",
      (row) => {
        row.sha256 = "0".repeat(64);
      },
      /pictureBytes.jsonl, line 1/,
    ],
    [
      "a report of another size",
      "testReports",
      (row) => {
        row.size = 7;
      },
      /testReports.jsonl, line 1, size/,
    ],
    [
      "two studios",
      "studios",
      (_, text) => `${text}\n${text.replace('"only":1', '"only":2')}`,
      /studios.jsonl: there has to be one row/,
    ],
  ];
  it.each(cases)("is refused with %s", async (_, noun, change, says) => {
    expect(await refusalOf(await withRow(files, noun, change))).toMatch(says);
  });

  it("is refused with a row twice, and with rows in another order", async () => {
    const twice = withRow(files, "people", (_, text) => `${text}\n${text}`);
    expect(await refusalOf(await twice)).toMatch(/people.jsonl, line 2: .*order of id/);
    const turned = fitted(files, (changed) => {
      const lines = String(changed.get("people.jsonl")).trimEnd().split("\n").reverse();
      changed.set("people.jsonl", Buffer.from(`${lines.join("\n")}\n`));
    });
    expect(await refusalOf(await turned)).toMatch(/people.jsonl, line 2: .*order of id/);
  });

  it("is refused with other counts, another head, a cut line, and bytes that are no text", async () => {
    const counts = fitted(
      files,
      () => {},
      (manifest) => {
        manifest.counts.recipes = 99;
      },
    );
    expect(await refusalOf(await counts)).toMatch(
      /recipes.jsonl has \d+ rows; the manifest says 99/,
    );
    const head = fitted(
      files,
      () => {},
      (manifest) => {
        manifest.head = { seq: 1, hash: "0".repeat(64) };
      },
    );
    expect(await refusalOf(await head)).toMatch(/head: it is not the last row of events.jsonl/);
    const cut = fitted(files, (changed) =>
      changed.set("people.jsonl", (changed.get("people.jsonl") ?? Buffer.of()).subarray(0, -1)),
    );
    expect(await refusalOf(await cut)).toMatch(/people.jsonl/);
    const latin = fitted(files, (changed) =>
      changed.set("people.jsonl", Buffer.from('{"name":"Caf\xe9"}\n', "latin1")),
    );
    expect(await refusalOf(await latin)).toMatch(/people.jsonl, line 1: it is not UTF-8/);
  });

  it("is refused where a picture or a report is not what its name says, or no row asks for it", async () => {
    for (const name of [pictureOf(), reportOf()]) {
      const other = fitted(files, (changed) => changed.set(name, Buffer.from("something else")));
      expect(await refusalOf(await other)).toMatch(/is not what its name says/);
    }
    const stray = fitted(files, (changed) => {
      const rest = [...changed].filter(([name]) => name.startsWith("reports/"));
      for (const [name] of rest) changed.delete(name);
      changed.set(`pictures/${"f".repeat(64)}.jpg`, Buffer.from("x"));
      for (const [name, bytes] of rest) changed.set(name, bytes);
    });
    expect(await refusalOf(await stray)).toMatch(/no row asks for it/);
  });

  it("is refused of another format, a later version, a later schema, and without its manager", async () => {
    const said = (alter: Parameters<typeof fitted>[2]) => fitted(files, () => {}, alter);
    expect(
      await refusalOf(
        await said((m) => {
          m.format = "another";
        }),
      ),
    ).toMatch(/no export of Common Bucket/);
    expect(
      await refusalOf(
        await said((m) => {
          m.version = 2;
        }),
      ),
    ).toMatch(/version 2 .* Update it first/);
    expect(
      await refusalOf(
        await said((m) => {
          m.schema = "9999_later";
        }),
      ),
    ).toMatch(/newer Common Bucket .*9999_later/);
    expect(await refusalOf(zip, "rukmini@saltmarsh.example")).toMatch(
      /no manager in this export. Managers are: ines@/,
    );
  });
});

it("of an earlier schema is taken, with what came later left as the database has it", async () => {
  const journal = readFileSync(
    new URL("../../src/db/migrations/meta/_journal.json", import.meta.url),
    "utf8",
  );
  const [earlier] = JSON.parse(journal).entries;
  const older = await fitted(
    files,
    (changed) => {
      changed.delete("importWithdrawals.jsonl");
      const studio = JSON.parse(String(changed.get("studios.jsonl")));
      const { stockWeeks: _, ...rest } = studio;
      changed.set("studios.jsonl", Buffer.from(`${JSON.stringify(rest)}\n`));
    },
    (manifest) => {
      manifest.schema = earlier.tag;
      delete manifest.counts.importWithdrawals;
    },
  );
  const database = await openTestDatabase();
  const restored = await restoreLibrary(database.db, { bytes: older }, { now });
  expect(restored).toMatchObject({ kind: "restored" });
  expect((await exportOf(database.db)).equals(zip)).toBe(true);
  await database.close();
});
