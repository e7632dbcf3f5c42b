import { Hono } from "hono";
import { validate as isId } from "uuid";
import { z } from "zod";
import { FreshInvite } from "../../views/people/invite.tsx";
import { makeInvite, revokeInvite } from "../db/invites.ts";
import { roles } from "../db/people.ts";
import { onTo, page, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { unrepeatable } from "../wire/unrepeatable.ts";

export const invites = new Hono<Env>();

const inviteBody = z.strictObject({ role: z.enum(roles) });

// A repeat would have to keep the link in plain text for a day, so these calls take no key: tapping
// twice makes two links, and the people page can end either.
invites.post(
  "/invites",
  described({ says: "Makes a link by which one person can join", body: inviteBody, status: 201 }),
  unrepeatable,
  managerRequired,
  async (c) => {
    const read = await readBody(c, inviteBody);
    if (read.kind === "refused") return faulty(c, read);
    const { id, role, path, expiresAt } = await makeInvite(c.var.db, {
      role: read.value.role,
      ...actOf(c),
    });
    const link = `${c.var.config.publicUrl ?? new URL(c.req.url).origin}${path}`;
    c.header("Location", "/people");
    c.header("Cache-Control", "no-store");
    if (wantsJson(c)) return c.json({ id, link, role, expiresAt }, 201);
    return page(
      c,
      { title: `A link for a ${role}`, here: "people" },
      () => <FreshInvite link={link} role={role} expiresAt={expiresAt} />,
      201,
    );
  },
);

const revoke = async (c: Ctx) => {
  const id = c.req.param("id") ?? "";
  if (!isId(id)) return notFound(c);
  const revoked = await revokeInvite(c.var.db, { inviteId: id, ...actOf(c) });
  if (revoked.kind === "no-invite") return notFound(c);
  return wantsJson(c) ? c.body(null, 204) : onTo(c, "/people#invites");
};

const ends = described({ says: "Ends a link that nobody joined by yet", status: 204 });
invites.delete("/invites/:id", ends, managerRequired, revoke);
invites.post("/invites/:id/revocation", ends, managerRequired, revoke);
