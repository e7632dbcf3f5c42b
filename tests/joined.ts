import { openAuth } from "../src/auth.ts";
import { makeInvite } from "../src/db/invites.ts";
import { findByEmail, type Role } from "../src/db/people.ts";
import { origin, type TestStudio } from "./studio.ts";

export const password = "four unrelated garden words";

export type Joined = { id: string; name: string; email: string; cookie: string };

let count = 0;

/** Somebody who joined by a link as people do, with a password and a cookie of their own. */
export async function join(studio: TestStudio, role: Role = "member"): Promise<Joined> {
  count += 1;
  const name = `Newcomer ${count}`;
  const email = `newcomer-${count}@saltmarsh.example`;
  const invite = await inviteFor(studio, role);
  const answer = await studio.send("visitor", "/people", {
    json: { invite, name, email, password },
  });
  if (answer.status !== 201) throw new Error(`joining answered ${answer.status}`);
  const person = await findByEmail(studio.db, email);
  return { id: person?.id ?? "", name, email, cookie: cookieOf(answer) };
}

/** The token of a fresh link, made by the studio's manager. */
export async function inviteFor(studio: TestStudio, role: Role): Promise<string> {
  const { path } = await makeInvite(studio.db, { role, by: studio.ids.manager, at: new Date() });
  return path.split("invite=")[1] ?? "";
}

/** A session for somebody without the asking of a password: a second browser. */
export async function anotherBrowser(studio: TestStudio, personId: string): Promise<string> {
  const browser = "Mozilla/5.0 (Windows NT 10.0; rv:140.0) Gecko/20100101 Firefox/140.0";
  const cookie = await openAuth(false).start(studio.db, { personId, browser, at: new Date() });
  return cookie.split(";")[0] ?? "";
}

export const cookieOf = (answer: Response): string =>
  (answer.headers.get("set-cookie") ?? "").split(";")[0] ?? "";

export const tokenOf = (cookie: string): string => cookie.split("=")[1] ?? "";

type Asked = {
  method?: string;
  cookie?: string;
  json?: unknown;
  form?: Record<string, string>;
  /** The address it comes from. */
  address?: string;
  headers?: Record<string, string>;
};

/** A request with any cookie and from any address, unlike those of the cast. */
export async function ask(studio: TestStudio, path: string, asked: Asked = {}): Promise<Response> {
  const { cookie, json, form, address = "192.0.2.1" } = asked;
  const headers: Record<string, string> = {
    ...(cookie !== undefined && { cookie }),
    ...(json !== undefined && { "content-type": "application/json", accept: "application/json" }),
    ...(form && { origin }),
    ...asked.headers,
  };
  const body =
    json !== undefined ? JSON.stringify(json) : form ? new URLSearchParams(form) : undefined;
  const method = asked.method ?? (body === undefined ? "GET" : "POST");
  const incoming = { socket: { remoteAddress: address }, headers: {} };
  return studio.app.request(
    `${origin}${path}`,
    { method, headers, ...(body !== undefined && { body }) },
    { incoming },
  );
}

/** The status of an account page read with a cookie: 200 where it speaks for somebody. */
export const accountStatus = async (studio: TestStudio, cookie: string): Promise<number> =>
  (await ask(studio, "/account", { cookie })).status;
