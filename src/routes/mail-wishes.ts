import { Hono } from "hono";
import { z } from "zod";
import { mailWishes, setMailWish } from "../db/wishes.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";

export const mailWish = new Hono<Env>();

const mailBody = z.strictObject({ mail: z.enum(mailWishes), idempotencyKey });

mailWish.on(
  ["PUT", "POST"],
  "/account/mail",
  described({ says: "Whether you are told by mail what waits for you", body: mailBody }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, mailBody);
    if (read.kind === "refused") return faulty(c, read);
    const { mail } = read.value;
    await setMailWish(c.var.db, { mail, ...actOf(c) });
    return changed(c, "/account#telling", { mail });
  },
);
