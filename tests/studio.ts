import type { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { createApp } from "../src/app.ts";
import { openAuth } from "../src/auth.ts";
import { readConfig } from "../src/config.ts";
import type { Database } from "../src/db/client.ts";
import { foldName } from "../src/db/names.ts";
import { people, type Role } from "../src/db/schema/index.ts";
import { openStudio } from "../src/db/studios.ts";
import type { Env } from "../src/wire/context.ts";
import { openTestDatabase } from "./engines/open.ts";

/** Who acts in the tests, in the roles that the studio knows, and a visitor without a session. */
export const cast = {
  author: { name: "Rukmini Vale", role: "member" },
  "other member": { name: "Jonah Brackley", role: "member" },
  reviewer: { name: "Tam Pellew", role: "reviewer" },
  manager: { name: "Ines Okafor", role: "manager" },
} as const satisfies Record<string, { name: string; role: Role }>;

export type Who = keyof typeof cast | "visitor";

export const everybody: readonly Who[] = [
  "visitor",
  "author",
  "other member",
  "reviewer",
  "manager",
];

/** A password hash that nothing verifies against; tests of signing in make people of their own. */
const noPassword =
  "$argon2id$v=19$m=19456,t=2,p=1$AAAAAAAAAAAAAAAAAAAAAA$AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA";

export const origin = "http://localhost";

type Sent = {
  method?: string;
  json?: unknown;
  form?: Record<string, string> | FormData;
  accept?: string;
  headers?: Record<string, string>;
};

export type TestStudio = Database & {
  app: Hono<Env>;
  ids: Record<keyof typeof cast, string>;
  cookies: Record<keyof typeof cast, string>;
  /** Sends a request as somebody: `json` speaks JSON, `form` a form from our own origin. */
  send: (who: Who, path: string, sent?: Sent) => Promise<Response>;
  /** Reads JSON, or fails the test with what came instead. */
  json: <T = Record<string, unknown>>(who: Who, path: string) => Promise<T>;
  /** What the app logged: empty in a studio where nothing broke. */
  logged: string[];
};

/** A studio of one's own with its cast signed in; close it when the file is done. */
export async function openTestStudio(
  variables: Record<string, string> = {},
  own?: Database,
): Promise<TestStudio> {
  const database = own ?? (await openTestDatabase());
  const { db } = database;
  const auth = openAuth(false);
  const ids = {} as TestStudio["ids"];
  const cookies = {} as TestStudio["cookies"];
  for (const [who, { name, role }] of Object.entries(cast) as [
    keyof typeof cast,
    { name: string; role: Role },
  ][]) {
    const email = `${foldName(name).split(" ")[0]}@saltmarsh.example`;
    const at = new Date("2026-01-05T09:00:00Z");
    ids[who] = uuidv7();
    await db.insert(people).values({
      id: ids[who],
      name,
      nameKey: foldName(name),
      email,
      emailKey: email,
      passwordHash: noPassword,
      role,
      joinedAt: at,
    });
    cookies[who] =
      (await auth.start(db, { personId: ids[who], browser: "test", at })).split(";")[0] ?? "";
  }
  const logged: string[] = [];
  await openStudio(db, "Saltmarsh Lane Studio");
  const config = readConfig(variables);
  const app = createApp({
    db,
    config,
    auth,
    telling: { broken: ({ method, route, error }) => logged.push(`${method} ${route} ${error}`) },
  });

  const send = async (who: Who, path: string, sent: Sent = {}) => {
    const headers: Record<string, string> = { ...(who !== "visitor" && { cookie: cookies[who] }) };
    const init: RequestInit = {
      method: sent.method ?? (sent.json !== undefined || sent.form ? "POST" : "GET"),
    };
    if (sent.json !== undefined) {
      headers["content-type"] = "application/json";
      headers.accept = "application/json";
      init.body = JSON.stringify(sent.json);
    } else if (sent.form) {
      headers.origin = origin;
      init.body = sent.form instanceof FormData ? sent.form : new URLSearchParams(sent.form);
    }
    if (sent.accept) headers.accept = sent.accept;
    return app.request(`${origin}${path}`, { ...init, headers: { ...headers, ...sent.headers } });
  };
  return {
    ...database,
    app,
    ids,
    cookies,
    send,
    async json<T>(who: Who, path: string) {
      const answer = await send(who, path, { accept: "application/json" });
      if (!answer.ok) throw new Error(`${path} answered ${answer.status}: ${await answer.text()}`);
      return (await answer.json()) as T;
    },
    logged,
  };
}
