import { Hono } from "hono";
import { z } from "zod";
import { addFiringCost, energies, energyUnits } from "../db/firing-costs.ts";
import { withdrawFiring } from "../db/firing-withdrawals.ts";
import { addWitnessCone, mostWitness } from "../db/firing-witness.ts";
import { type FoundFiring, findFiring } from "../db/firings.ts";
import { changed, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { decimalWithin, idempotencyKey, line, text } from "../wire/fields.ts";
import { witnessCone } from "../wire/firing-body.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { firingWithTilesJson } from "./firing-json.ts";
import { firingOnRecord, openFiring, sheetAgain, withdrawnBefore } from "./firing-sheet.ts";

/** What is added to a firing after it was put on record, and its being taken back. */
export const firingAdditions = new Hono<Env>();

const witnessBody = witnessCone.extend({ idempotencyKey });

firingAdditions.post(
  "/:id/witness",
  described({
    says: "Add a witness cone that was read after the firing was put on record",
    body: witnessBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const opened = await openFiring(c, "mayAdd");
    if (!opened) return notFound(c);
    if (opened.kind === "closed") return opened.answer;
    const { firing } = opened;
    const read = await readBody(c, witnessBody);
    const form = { form: "witness", typed: read.typed } as const;
    if (read.kind === "refused")
      return faulty(c, read, await sheetAgain(c, firing, { ...form, faults: read.faults }));
    const { cone, bendDegrees, place } = read.value;
    const stood = { cone, bendDegrees, place };
    const added = await addWitnessCone(c.var.db, { firingId: firing.id, ...stood, ...actOf(c) });
    switch (added.kind) {
      case "full": {
        const says = `${mostWitness} witness cones are on record of this firing, and no more can be.`;
        const faults = [{ path: "cone", says }];
        return faulty(c, { faults }, await sheetAgain(c, firing, { ...form, faults }));
      }
      case "added":
        return created(c, `/firings/${firing.id}`, await wholeJson(c, firing));
    }
  },
);

const costBody = z
  .strictObject({
    energy: z.enum(energies),
    amount: decimalWithin(0, 1_000_000, 3),
    unit: z.enum(energyUnits),
    price: decimalWithin(0, 10_000_000, 4).optional(),
    currency: line(3)
      .transform((typed) => typed.toUpperCase())
      .refine((typed) => /^[A-Z]{3}$/.test(typed), {
        error: "A currency by its three letters, such as GBP.",
      })
      .optional(),
    idempotencyKey,
  })
  .superRefine(({ price, currency }, context) => {
    if ((price === undefined) === (currency === undefined)) return;
    const [path, message] =
      price === undefined
        ? ["price", "A currency without a price. Say what the firing cost."]
        : ["currency", "In which currency? Its three letters, such as GBP."];
    context.addIssue({ code: "custom", path: [path], message });
  });

firingAdditions.post(
  "/:id/costs",
  described({
    says: "Put down what a firing used, and what the whole of it cost; the newest counts",
    body: costBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const opened = await openFiring(c, "mayAdd");
    if (!opened) return notFound(c);
    if (opened.kind === "closed") return opened.answer;
    const { firing } = opened;
    const read = await readBody(c, costBody);
    if (read.kind === "refused") {
      const { typed, faults } = read;
      return faulty(c, read, await sheetAgain(c, firing, { form: "cost", typed, faults }));
    }
    const { energy, amount, unit, price = null, currency = null } = read.value;
    const cost = { energy, amount, unit, price, currency };
    await addFiringCost(c.var.db, { firingId: firing.id, ...cost, ...actOf(c) });
    return created(c, `/firings/${firing.id}#cost`, await wholeJson(c, firing));
  },
);

const withdrawalBody = z.strictObject({ why: text(1000), idempotencyKey });

firingAdditions.on(
  ["PUT", "POST"],
  "/:id/withdrawal",
  described({ says: "Withdraw a firing, for good and with the reason", body: withdrawalBody }),
  memberRequired,
  async (c) => {
    const opened = await openFiring(c, "mayWithdraw");
    if (!opened) return notFound(c);
    if (opened.kind === "closed") return opened.answer;
    const { firing } = opened;
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") {
      const { typed, faults } = read;
      return faulty(c, read, await sheetAgain(c, firing, { form: "withdrawal", typed, faults }));
    }
    const { why } = read.value;
    const withdrawal = await withdrawFiring(c.var.db, { firingId: firing.id, why, ...actOf(c) });
    switch (withdrawal.kind) {
      case "withdrawn":
        return changed(c, `/firings/${firing.id}`, await wholeJson(c, firing));
      case "withdrawn-before":
        return withdrawnBefore(c, (await findFiring(c.var.db, { id: firing.id })) ?? firing);
    }
  },
);

/** The firing as it stands now. */
async function wholeJson(c: Ctx, before: FoundFiring) {
  const firing = (await findFiring(c.var.db, { id: before.id })) ?? before;
  return firingWithTilesJson(await firingOnRecord(c, firing));
}
