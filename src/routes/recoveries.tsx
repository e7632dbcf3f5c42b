import { Hono } from "hono";
import { validate as isId } from "uuid";
import { z } from "zod";
import { FreshRecovery, SetPassword, SpentRecovery } from "../../views/people/recovery.tsx";
import { findPerson } from "../db/people.ts";
import { findRecovery, makeRecovery, revokeRecovery, useRecovery } from "../db/recoveries.ts";
import { countAttempt, forgiveAttempt } from "../db/sign-in-attempts.ts";
import { answer, changed, onTo, page, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound, refuse } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { hashPassword, passwordFault } from "../work/passwords.ts";
import { tooMany } from "./session.tsx";

export const recoveries = new Hono<Env>();

const passwordBody = z.strictObject({ password: z.string() });

// As with links to join, a repeat would have to keep the link in plain text, so this takes no key.
recoveries.post(
  "/people/:id/recovery",
  described({ says: "Makes a link by which somebody sets a new password", status: 201 }),
  unrepeatable,
  managerRequired,
  async (c) => {
    const id = c.req.param("id");
    const person = isId(id) ? await findPerson(c.var.db, id) : undefined;
    if (!person) return notFound(c);
    const made = await makeRecovery(c.var.db, { personId: person.id, ...actOf(c) });
    if (made.kind === "no-person") return notFound(c);
    const { expiresAt } = made;
    const link = `${c.var.config.publicUrl ?? new URL(c.req.url).origin}${made.path}`;
    c.header("Location", `/people/${person.id}`);
    c.header("Cache-Control", "no-store");
    if (wantsJson(c)) return c.json({ id: made.id, link, expiresAt }, 201);
    return page(
      c,
      { title: `A new password for ${person.name}`, here: "people" },
      () => <FreshRecovery person={person} link={link} expiresAt={expiresAt} />,
      201,
    );
  },
);

const revoke = async (c: Ctx) => {
  const id = c.req.param("id") ?? "";
  if (!isId(id)) return notFound(c);
  const revoked = await revokeRecovery(c.var.db, { recoveryId: id, ...actOf(c) });
  if (revoked.kind === "no-recovery") return notFound(c);
  return wantsJson(c) ? c.body(null, 204) : onTo(c, `/people/${revoked.personId}#recoveries`);
};

const ends = described({ says: "Ends a link that nobody used yet", status: 204 });
recoveries.delete("/recoveries/:id", ends, managerRequired, revoke);
recoveries.post("/recoveries/:id/end", ends, managerRequired, revoke);

recoveries.get(
  "/recovery/:token",
  described({ says: "The form to set a new password by a link" }),
  async (c) => {
    const held = await heldBy(c, c.req.param("token"));
    if (held.kind === "refused") return held.answer;
    const { name, form } = held;
    return answer(c, { json: () => ({ name }), ...form() });
  },
);

recoveries.post(
  "/recovery/:token",
  described({ says: "Sets a new password by a link", body: passwordBody }),
  unrepeatable,
  async (c) => {
    const { db, now: at } = c.var;
    const token = c.req.param("token");
    const held = await heldBy(c, token);
    if (held.kind === "refused") return held.answer;
    const { name, email, form } = held;
    const read = await readBody(c, passwordBody);
    if (read.kind === "refused") return faulty(c, read, form(read.faults));
    const says = passwordFault(read.value.password, { name, email });
    if (says) {
      const faults = [{ path: "password", says }];
      return faulty(c, { faults }, form(faults));
    }
    const passwordHash = await hashPassword(read.value.password);
    const used = await useRecovery(db, { token, passwordHash, at });
    if (used.kind === "spent") return spent(c);
    return changed(c, "/session/new?set=password", { sessionsEnded: used.sessionsEnded });
  },
);

type Held =
  | { kind: "refused"; answer: Response | Promise<Response> }
  | {
      kind: "held";
      name: string;
      email: string;
      form: (faults?: readonly Fault[]) => Parameters<typeof refuse>[2] & object;
    };

/** Whose password a link lets set. Tries with links that do not work are counted as failed sign-ins are. */
async function heldBy(c: Ctx, token: string): Promise<Held> {
  const { db, now: at, clientAddress: address } = c.var;
  c.header("Cache-Control", "no-store");
  const email = `recovery ${token}`;
  const counted = await countAttempt(db, { email, address, at });
  if (counted.kind === "too-many")
    return { kind: "refused", answer: tooMany(c, counted, () => spentPage) };
  const found = await findRecovery(db, { token, at });
  if (!found?.email) return { kind: "refused", answer: spent(c) };
  await forgiveAttempt(db, counted.attempt, at);
  const { name } = found;
  const form = (faults: readonly Fault[] = []) => ({
    page: { title: `A new password for ${name}`, here: "none", alone: true } as const,
    view: () => <SetPassword name={name} token={token} faults={faults} />,
  });
  return { kind: "held", name, email: found.email, form };
}

const spentPage = {
  page: { title: "This link does not work", here: "none" } as const,
  view: () => <SpentRecovery />,
};

const spent = (c: Ctx) =>
  refuse(
    c,
    {
      status: 404,
      title: "This link does not work",
      detail:
        "It was used or ended, is over a day old, or was never one. Ask a manager for a new one.",
    },
    spentPage,
  );
