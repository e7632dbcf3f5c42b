import { Hono } from "hono";
import { z } from "zod";
import { Join, SpentInvite } from "../../views/people/join.tsx";
import { findInvite } from "../db/invites.ts";
import { joinStudio } from "../db/joining.ts";
import { keyOfName, type Role } from "../db/people.ts";
import { answer, onTo, wantsJson } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { line } from "../wire/fields.ts";
import { type Fault, faulty, refuse } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";
import { hashPassword, passwordFault } from "../work/passwords.ts";
import { personJson, startHere } from "./session.tsx";

export const joining = new Hono<Env>();

/** Names of people who left read like this, so nobody else's may. */
const pseudonym = /^former member\b/;

const name = line(80).pipe(
  z
    .string()
    .refine((typed) => /[\p{L}\p{N}]/u.test(typed), "A name has at least one letter.")
    .refine(
      (typed) => !/[\u202A-\u202E\u2066-\u2069]/.test(typed),
      "One line of plain text, please.",
    )
    .refine((typed) => !pseudonym.test(keyOfName(typed)), "This name is kept for people who left."),
);

/** The token alone, or the whole link that it came in. */
const invite = z
  .string()
  .trim()
  .min(1)
  .max(500)
  .transform((typed) => typed.replace(/^.*[?&]invite=/, ""));

const newcomerBody = z.strictObject({
  invite,
  name,
  email: z
    .string()
    .trim()
    .max(254)
    .pipe(z.email({ error: "An e-mail address such as name@example.org." })),
  password: z.string(),
});
const query = z.object({ invite: z.string().optional() });

joining.get(
  "/people/new",
  described({ says: "What a link to join is for, and the form to join with", query }),
  async (c) => {
    const token = c.req.query("invite") ?? "";
    const found = await findInvite(c.var.db, { token, at: c.var.now });
    c.header("Cache-Control", "no-store");
    if (!found) return spent(c, 404);
    return answer(c, {
      json: () => ({ role: found.role }),
      ...joinForm(c, { role: found.role, typed: { invite: token }, faults: [] }),
    });
  },
);

joining.post(
  "/people",
  described({ says: "Joins by a link and signs in", body: newcomerBody, status: 201 }),
  unrepeatable,
  async (c) => {
    const { db, now: at } = c.var;
    const read = await readBody(c, newcomerBody);
    const { typed } = read;
    const token = invite.safeParse(typed.invite);
    const found = token.success && (await findInvite(db, { token: token.data, at }));
    if (read.kind === "refused" && (!token.success || found))
      return faulty(
        c,
        read,
        found ? joinForm(c, { role: found.role, typed, faults: read.faults }) : undefined,
      );
    if (read.kind === "refused" || !found) return spent(c, 422);

    const again = (faults: Fault[]) =>
      faulty(c, { faults }, joinForm(c, { role: found.role, typed, faults }));
    const { password, ...newcomer } = read.value;
    const fault = passwordFault(password, newcomer);
    if (fault) return again([{ path: "password", says: fault }]);

    const passwordHash = await hashPassword(password);
    const joined = await joinStudio(db, {
      token: newcomer.invite,
      name: newcomer.name,
      email: newcomer.email,
      passwordHash,
      at,
    });
    switch (joined.kind) {
      case "spent":
        return spent(c, 422);
      case "taken":
        return again([{ path: joined.field, says: taken[joined.field] }]);
      case "joined":
        await startHere(c, { id: joined.person.id, passwordHash });
        c.header("Location", "/account");
        return wantsJson(c) ? c.json({ person: personJson(joined.person) }, 201) : onTo(c, "/");
    }
  },
);

const taken = {
  name: "This name cannot be told apart from one that is taken. Add another of your names, or an initial.",
  email:
    "This e-mail cannot be used to join. If it is yours, you may have joined already: sign in.",
};

const spent = (c: Ctx, status: 404 | 422) => {
  const says =
    "This link does not work: it was used or ended, is over a week old, or was never one. Ask a manager for a new one.";
  return refuse(
    c,
    {
      status,
      title: "This link does not work",
      detail: says,
      errors: status === 422 ? [{ path: "invite", says }] : undefined,
    },
    { page: { title: "This link does not work", here: "none" }, view: () => <SpentInvite /> },
  );
};

type Form = { role: Role; typed: Typed; faults: readonly Fault[] };

const joinForm = (c: Ctx, { role, typed, faults }: Form) => ({
  page: { title: `Join ${c.var.studio.name}`, here: "none" } as const,
  view: () => (
    <Join
      studio={c.var.studio.name}
      invite={text(typed.invite) ?? ""}
      role={role}
      name={text(typed.name)}
      email={text(typed.email)}
      faults={faults}
    />
  ),
});

const text = (typed: unknown): string | undefined =>
  typeof typed === "string" ? typed : undefined;
