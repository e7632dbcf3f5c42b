import { Hono } from "hono";
import { z } from "zod";
import { Account } from "../../views/account/account.tsx";
import { findAccount } from "../db/people.ts";
import { changePassword, endOtherSessions, endSession, listSessions } from "../db/sessions.ts";
import { countAttempt, forgiveAttempt } from "../db/sign-in-attempts.ts";
import { findWishes } from "../db/wishes.ts";
import { answer, changed, onTo, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, signInFirst } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { hashPassword, passwordFault, verifyPassword } from "../work/passwords.ts";
import { tooMany } from "./session.tsx";

export const account = new Hono<Env>();

const passwordBody = z.strictObject({
  current: z.string().min(1).max(1000),
  password: z.string(),
});

const query = z.object({ changed: z.string().optional() });

account.get(
  "/account",
  described({ says: "Your name, e-mail and role, and where you are signed in", query }),
  memberRequired,
  async (c) => {
    const own = await readOwn(c);
    if (!own) return signInFirst(c);
    const { page, view } = accountPage(own);
    const notice = c.req.query("changed") === "password" ? passwordChanged : undefined;
    return answer(c, { json: () => own, page: { ...page, notice }, view });
  },
);

account.on(
  ["PUT", "POST"],
  "/account/password",
  described({ says: "Changes your password and ends your other sessions", body: passwordBody }),
  unrepeatable,
  memberRequired,
  async (c) => {
    const { db, now: at, clientAddress: address } = c.var;
    const own = await readOwn(c);
    const person = await findAccount(db, memberOf(c).id);
    if (!own || !person) return signInFirst(c);
    const again = (path: string, says: string) => {
      const faults = [{ path, says }];
      return faulty(c, { faults }, accountPage(own, faults));
    };
    const read = await readBody(c, passwordBody);
    if (read.kind === "refused") return faulty(c, read, accountPage(own, read.faults));
    const { current, password } = read.value;
    const fault = passwordFault(password, person);
    if (fault) return again("password", fault);

    const counted = await countAttempt(db, { email: person.email, address, at });
    if (counted.kind === "too-many") return tooMany(c, counted, (said) => accountPage(own, [said]));
    if (!(await verifyPassword(person.passwordHash, current)))
      return again("current", "This is not your password now.");
    await forgiveAttempt(db, counted.attempt, at);

    const change = await changePassword(db, {
      personId: person.id,
      from: person.passwordHash,
      to: await hashPassword(password),
      keep: sessionOf(c),
      at,
    });
    switch (change.kind) {
      case "changed":
        return changed(c, "/account?changed=password", { sessionsEnded: change.sessionsEnded });
      case "changed-meanwhile":
        return again("current", "It was changed a moment ago, from somewhere else.");
    }
  },
);

const end = async (c: Ctx) => {
  const sessionId = c.req.param("id") ?? "";
  const ended = await endSession(c.var.db, {
    sessionId,
    personId: memberOf(c).id,
    at: c.var.now,
  });
  if (ended.kind === "no-session") return notFound(c);
  if (sessionId === sessionOf(c)) c.header("Set-Cookie", c.var.auth.blankCookie());
  return wantsJson(c) ? c.body(null, 204) : onTo(c, "/account#sessions");
};

const endOthers = async (c: Ctx) => {
  const sessionsEnded = await endOtherSessions(c.var.db, {
    keep: sessionOf(c),
    personId: memberOf(c).id,
    at: c.var.now,
  });
  return changed(c, "/account#sessions", { sessionsEnded });
};

const endsOthers = described({ says: "Ends all your sessions but this one" });
account.delete("/account/sessions", endsOthers, memberRequired, endOthers);
account.post("/account/sessions/end", endsOthers, memberRequired, endOthers);

const ends = described({ says: "Ends one of your sessions", status: 204 });
account.delete("/account/sessions/:id", ends, memberRequired, end);
account.post("/account/sessions/:id/end", ends, memberRequired, end);

const passwordChanged = "Your password is changed, and every other browser is signed out.";

/** The session that asks, as it stands in the database. */
const sessionOf = (c: Ctx): string => c.var.signedIn?.sessionId ?? "";

type Own = NonNullable<Awaited<ReturnType<typeof readOwn>>>;

async function readOwn(c: Ctx) {
  const personId = memberOf(c).id;
  const person = await findAccount(c.var.db, personId);
  if (!person) return undefined;
  const { name, email, role, joinedAt } = person;
  const sessions = await listSessions(c.var.db, { personId, at: c.var.now });
  const { smtpUrl, publicUrl } = c.var.config;
  return {
    wishes: await findWishes(c.var.db, personId),
    sendsMail: smtpUrl !== undefined && publicUrl !== undefined,
    person: { name, email, role, joinedAt },
    sessions: sessions.map((session) => ({ ...session, current: session.id === sessionOf(c) })),
  };
}

const accountPage = (own: Own, faults: readonly Fault[] = []) => ({
  page: { title: "Your account", here: "account" } as const,
  view: () => <Account {...own} faults={faults} />,
});
