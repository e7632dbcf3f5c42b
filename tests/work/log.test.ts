import { DrizzleQueryError } from "drizzle-orm/errors";
import { describe, expect, it } from "vitest";
import { openLog, whatBroke } from "../../src/work/log.ts";

const secret = "marta@saltmarsh.example";

/** As a driver raises it: its words quote what was typed. */
const raised = (more: object) =>
  Object.assign(new Error(`duplicate key: (email)=(${secret})`), { code: "23505", ...more });

describe("what broke, for the log", () => {
  it.each([
    ["postgres.js", { constraint_name: "people_email_unique", detail: secret }],
    ["the embedded engine", { constraint: "people_email_unique", detail: secret }],
  ])("tells of a statement without its values, as %s raises it", (_, more) => {
    const error = new DrizzleQueryError("insert into people values ($1)", [secret], raised(more));
    const broke = whatBroke(error);
    expect(broke).toMatchObject({
      code: "23505",
      constraint: "people_email_unique",
      query: "insert into people values ($1)",
    });
    expect(JSON.stringify(broke)).not.toContain(secret);
    expect(broke.at[0]).toContain("log.test.ts");
  });

  it("tells of a raised error without a statement by its code alone", () => {
    expect(JSON.stringify(whatBroke(raised({})))).not.toContain(secret);
    expect(whatBroke(raised({})).code).toBe("23505");
  });

  it("keeps the words of an error of our own, and of what is no error only its kind", () => {
    expect(whatBroke(new Error("this route lacks memberRequired")).says).toBe(
      "this route lacks memberRequired",
    );
    expect(whatBroke(secret)).toEqual({ name: "thrown", says: "string", at: [] });
  });
});

describe("the log", () => {
  it("is a line of JSON for each thing, from its level on", () => {
    const lines: string[] = [];
    const log = openLog({ logLevel: "warn" }, { write: (line) => lines.push(line) });
    log.info("answered");
    log.warn({ query: "select 1", milliseconds: 700 }, "a slow statement");
    expect(lines.map((line) => JSON.parse(line))).toEqual([
      {
        level: "warn",
        time: expect.stringMatching(/^\d{4}-\d\d-\d\dT.*Z$/),
        query: "select 1",
        milliseconds: 700,
        msg: "a slow statement",
      },
    ]);
  });
});
