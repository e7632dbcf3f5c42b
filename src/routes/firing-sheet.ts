import { v7 as uuidv7 } from "uuid";
import { FiringPage } from "../../views/firings/firing.tsx";
import type { Sent } from "../../views/firings/types.ts";
import { pricePerUnit } from "../chem/firing-cost.ts";
import { energies, energyUnits, findFiringCost } from "../db/firing-costs.ts";
import { findFiringLog } from "../db/firing-logs.ts";
import { listTilesOfFiring } from "../db/firing-tiles.ts";
import { type FoundFiring, findFiring, rightsTo } from "../db/firings.ts";
import type { Typed } from "../wire/body.ts";
import type { Ctx } from "../wire/context.ts";
import { type Fault, notAllowed, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { estimateOfLog } from "../work/log-estimates.ts";

export type FiringOnRecord = Awaited<ReturnType<typeof firingOnRecord>>;

/** A firing with all that is on record of it, as far as the reader may know. */
export async function firingOnRecord(c: Ctx, firing: FoundFiring) {
  const { db, viewer: reader } = c.var;
  const firingId = firing.id;
  const log = await findFiringLog(db, { firingId });
  const cost = await findFiringCost(db, { firingId });
  return {
    firing,
    log: log && { ...log, estimation: await estimateOfLog(db, { logId: log.id }) },
    cost: cost && { ...cost, perUnit: cost.price && pricePerUnit(cost.price, cost.amount) },
    tiles: await listTilesOfFiring(db, { firingId, reader }),
  };
}

/** A firing's page, with what was sent with one of its forms and is wrong. */
export function firingSheet(c: Ctx, record: FiringOnRecord, sent?: Sent) {
  const { firing } = record;
  return {
    page: { title: `Firing of ${firing.kiln.name}, cone ${firing.cone}`, here: "kiln" as const },
    view: () =>
      FiringPage({
        ...record,
        ...rightsTo(firing, c.var.viewer),
        energies,
        units: energyUnits,
        sent,
        idempotencyKeys: { witness: uuidv7(), cost: uuidv7() },
      }),
  };
}

/** The page again, with a form as it was sent. */
export async function sheetAgain(
  c: Ctx,
  firing: FoundFiring,
  { form, typed, faults }: { form: Sent["form"]; typed: Typed; faults: readonly Fault[] },
) {
  const sent = { form, typed: (path: string) => typedText(typed, path), faults };
  return firingSheet(c, await firingOnRecord(c, firing), sent);
}

type Opened = { kind: "open"; firing: FoundFiring } | { kind: "closed"; answer: Response };

/** The firing that is written to: there, the writer's to change, and not withdrawn. */
export async function openFiring(
  c: Ctx,
  may: "mayAdd" | "mayWithdraw",
): Promise<Opened | undefined> {
  const firing = await findFiring(c.var.db, { id: c.req.param("id") ?? "" });
  if (!firing) return undefined;
  const sheet = async (faults: Fault[]) =>
    firingSheet(c, await firingOnRecord(c, firing), { form: "readings", typed: () => "", faults });
  if (!rightsTo(firing, c.var.viewer)[may]) {
    const says = notYours[may];
    return { kind: "closed", answer: await notAllowed(c, says, await sheet([{ path: "", says }])) };
  }
  if (firing.withdrawn) {
    return { kind: "closed", answer: await withdrawnBefore(c, firing) };
  }
  return { kind: "open", firing };
}

const notYours = {
  mayAdd:
    "Who put the firing on record, a reviewer or a manager can add to it. Tell one of them what you read, or put it into the remark of your tile.",
  mayWithdraw:
    "Who put the firing on record or a manager can withdraw it. Tell one of them what is wrong with it.",
};

/** Nothing more is done to a firing that was withdrawn. */
export async function withdrawnBefore(c: Ctx, firing: FoundFiring): Promise<Response> {
  const detail = `This firing was withdrawn before, and that stands: ${firing.withdrawn?.why ?? ""} Put the firing on record anew.`;
  const faults = [{ path: "", says: detail }];
  return refuse(
    c,
    { status: 409, title: "Withdrawn before", detail },
    firingSheet(c, await firingOnRecord(c, firing), {
      form: "withdrawal",
      typed: () => "",
      faults,
    }),
  );
}
