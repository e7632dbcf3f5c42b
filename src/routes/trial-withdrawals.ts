import { Hono } from "hono";
import { z } from "zod";
import type { TrialResult } from "../db/trial-results.ts";
import { findResultPlace, withdrawTrialResult } from "../db/trial-results.ts";
import { changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, text } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { faulty, notAllowed, notFound, refuse } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { resultJson } from "./trial-json.ts";
import { mayWithdraw, pointSheet, type ReadPlace, readPoint } from "./trial-points.ts";

export const trialWithdrawals = new Hono<Env>();

const withdrawalBody = z.strictObject({ why: text(1000), idempotencyKey });

trialWithdrawals.on(
  ["PUT", "POST"],
  "/results/:id/withdrawal",
  described({
    says: "Withdraw what was put down at a point, for good and with the reason",
    body: withdrawalBody,
  }),
  memberRequired,
  async (c) => {
    const found = await findPlace(c);
    if (!found) return notFound(c);
    const { place, result } = found;
    if (!mayWithdraw(c, result)) return notAllowed(c, notTheirs, await pointSheet(c, place));
    if (result.withdrawn) return withdrawnBefore(c, found);
    const read = await readBody(c, withdrawalBody);
    if (read.kind === "refused") {
      const { faults, typed } = read;
      const withdrawing = { id: result.id, why: typedText(typed, "why") };
      return faulty(c, read, await pointSheet(c, place, { faults, withdrawing }));
    }
    const { trial, point } = place;
    const withdrawal = await withdrawTrialResult(c.var.db, {
      ...{ trialId: trial.id, n: point.n, resultId: result.id, why: read.value.why },
      ...actOf(c),
    });
    const now = (await findPlace(c)) ?? found;
    switch (withdrawal.kind) {
      case "withdrawn":
        return changed(c, `/trials/${trial.id}/points/${point.n}`, resultJson(now.result));
      case "withdrawn-before":
        return withdrawnBefore(c, now);
    }
  },
);

const notTheirs =
  "Who put it down or a manager can withdraw it. Put down beside it what you see yourself.";

type Found = { place: ReadPlace; result: TrialResult };

async function findPlace(c: Ctx): Promise<Found | undefined> {
  const id = c.req.param("id") ?? "";
  const at = await findResultPlace(c.var.db, { id, reader: c.var.viewer });
  const place = at && (await readPoint(c, { id: at.trialId, n: at.n }));
  const result = place?.point.results.find((each) => each.id === id);
  return place && result && { place, result };
}

async function withdrawnBefore(c: Ctx, { place, result }: Found) {
  const detail = "It was withdrawn before, and the reason that was given then stands.";
  const problem = { status: 409, title: "Withdrawn already", detail } as const;
  const more = { withdrawn: resultJson(result).withdrawn };
  return refuse(c, { ...problem, more }, await pointSheet(c, place));
}
