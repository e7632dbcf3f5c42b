import postgres from "postgres";
import { afterAll, beforeAll, describe, expect, inject, it } from "vitest";
import type { Database } from "../../src/db/client.ts";
import { openPostgres } from "../../src/db/postgres.ts";

// Roles are the server's: the embedded engine has one and nobody to keep out.
describe.runIf(process.env.BUCKET_ENGINE === "postgres")(
  "the app under a role that owns no table",
  () => {
    const name = `bucket_roles_${process.pid}`;
    let admin: postgres.Sql;
    let database: Database;
    let app: postgres.Sql;

    beforeAll(async () => {
      const server = inject("server");
      admin = postgres(server, { max: 1, onnotice: () => {} });
      await admin`create database ${admin(name)}`;
      await admin`create role ${admin(name)} login password 'only for this test'`;
      const owner = new URL(server);
      owner.pathname = `/${name}`;
      const url = new URL(owner);
      url.username = name;
      url.password = "only for this test";
      database = await openPostgres(url.href, owner.href);
      app = postgres(url.href, { max: 1, onnotice: () => {} });
    });
    afterAll(async () => {
      await app.end();
      await database.close();
      await admin`drop database ${admin(name)} with (force)`;
      await admin`drop role ${admin(name)}`;
      await admin.end();
    });

    it("reads and writes", async () => {
      await app`insert into studios ("only", name, shows_public) values (1, 'Saltmarsh Lane Studio', true)`;
      expect(await app`select name from studios`).toHaveLength(1);
    });

    it.each([
      "alter table events disable trigger all",
      "drop trigger keep_rows on events",
      "drop table events",
      "truncate events",
      "create or replace function refuse_change() returns trigger language plpgsql as 'begin return new; end'",
    ])("cannot: %s", async (statement) => {
      await expect(app.unsafe(statement)).rejects.toThrow(/must be owner|permission denied/);
    });
  },
);
