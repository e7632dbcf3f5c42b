import { Hono } from "hono";
import { z } from "zod";
import { SignIn } from "../../views/account/sign-in.tsx";
import { findByEmail } from "../db/people.ts";
import { endOwnSession, startSession } from "../db/sessions.ts";
import { countAttempt, forgiveAttempt } from "../db/sign-in-attempts.ts";
import { answer, onTo, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { type Fault, faulty, refuse } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { verifyPassword } from "../work/passwords.ts";

export const session = new Hono<Env>();

const signInBody = z.strictObject({
  email: z.string().trim().min(1).max(254),
  password: z.string().min(1).max(1000),
  next: z.string().optional(),
});
const query = z.object({ next: z.string().optional(), set: z.string().optional() });
const passwordSet = "Your new password is set. Sign in with it.";
const signInPage = { title: "Sign in", here: "account" } as const;

session.get(
  "/session/new",
  described({ says: "The form to sign in; who is signed in, where somebody is", query }),
  (c) =>
    answer(c, {
      json: () => ({ person: c.var.viewer ? personJson(c.var.viewer) : null }),
      page: {
        ...signInPage,
        notice: c.req.query("set") === "password" ? passwordSet : undefined,
      },
      view: () => <SignIn next={localPath(c.req.query("next"))} signedInAs={c.var.viewer?.name} />,
    }),
);

session.post(
  "/session",
  described({ says: "Signs in and sets the cookie", body: signInBody }),
  unrepeatable,
  async (c) => {
    const { db, now: at, clientAddress: address } = c.var;
    const read = await readBody(c, signInBody);
    if (read.kind === "refused") return faulty(c, read, signInForm(read.typed, read.faults));
    const { email, password } = read.value;

    const counted = await countAttempt(db, { email, address, at });
    if (counted.kind === "too-many")
      return tooMany(c, counted, (fault) => signInForm(read.typed, [fault]));

    const person = await findByEmail(db, email);
    const right = await verifyPassword(person?.passwordHash, password);
    if (!person || !right || !(await startHere(c, person))) return wrongPair(c, read.typed);
    await forgiveAttempt(db, counted.attempt, at);

    if (wantsJson(c)) return c.json({ person: personJson(person) });
    return onTo(c, localPath(read.value.next) ?? "/");
  },
);

const signOut = async (c: Ctx) => {
  if (c.var.signedIn) await endOwnSession(c.var.db, c.var.signedIn.sessionId);
  c.header("Set-Cookie", c.var.auth.blankCookie());
  return wantsJson(c) ? c.body(null, 204) : onTo(c, "/session/new");
};

session.delete("/session", described({ says: "Signs out", status: 204 }), signOut);
session.post("/session/end", described({ says: "Signs out", status: 204 }), signOut);

/**
 * Signs this browser in with a session of its own; one that it had before is ended.
 *
 * @returns false where the password or the person went while the password was being looked at.
 */
export async function startHere(
  c: Ctx,
  { id, passwordHash }: { id: string; passwordHash: string },
): Promise<boolean> {
  const { db, auth, now: at, signedIn } = c.var;
  const browser = c.req.header("user-agent") ?? "";
  const started = await startSession(db, { personId: id, passwordHash, at }, (tx) =>
    auth.start(tx, { personId: id, browser, at }),
  );
  if (started.kind === "changed-meanwhile") return false;
  if (signedIn) await endOwnSession(db, signedIn.sessionId);
  c.header("Set-Cookie", started.cookie);
  return true;
}

/** Who somebody is, as much as the JSON of signing in says. */
export const personJson = ({ name, role }: { name: string; role: string }) => ({ name, role });

/**
 * Refuses to look at another password for a while.
 *
 * @param form the form again, with this said in it.
 */
export function tooMany(
  c: Ctx,
  { againInSeconds }: { againInSeconds: number },
  form: (fault: Fault) => Parameters<typeof refuse>[2],
) {
  const minutes = Math.ceil(againInSeconds / 60);
  const detail = `That was wrong too often. Wait ${minutes === 1 ? "a minute" : `${minutes} minutes`}, then try again.`;
  c.header("Retry-After", String(againInSeconds));
  return refuse(
    c,
    { status: 429, title: "Too many tries", detail },
    form({ path: "", says: detail }),
  );
}

/**
 * A path within this studio, or undefined for anything that a browser might take for another site:
 * one slash to begin with, no two in a row, and none but visible ASCII without the backslash.
 */
export const localPath = (typed: string | undefined): string | undefined =>
  typed && typed.length <= 500 && /^(?!.*\/\/)\/[!-[\]-~]*$/.test(typed) ? typed : undefined;

const wrongPair = (c: Ctx, typed: Typed) => {
  const detail = "This e-mail and this password do not belong together. Check both and try again.";
  return refuse(
    c,
    { status: 401, title: "Not signed in", detail },
    signInForm(typed, [{ path: "", says: detail }]),
  );
};

const signInForm = (typed: Typed, faults: readonly Fault[]) => ({
  page: signInPage,
  view: () => (
    <SignIn email={text(typed.email)} next={localPath(text(typed.next))} faults={faults} />
  ),
});

const text = (typed: unknown): string | undefined =>
  typeof typed === "string" ? typed : undefined;
