import type { Ctx } from "../wire/context.ts";
import { refuse } from "../wire/problems.tsx";
import { type Asker, type Solved, solverSeconds } from "../work/solver.ts";

/** Who asks the solver: people of the studio go first, visitors one at a time by their address. */
export const askerOf = (c: Ctx): { asker: Asker; signal: AbortSignal } => ({
  asker: { member: c.var.viewer !== undefined, address: c.var.clientAddress },
  signal: c.req.raw.signal,
});

/** No answer came of it: too many wait, or the time was up before there was any. */
export function unsolved(c: Ctx, solved: Exclude<Solved<unknown>, { kind: "done" | "stopped" }>) {
  switch (solved.kind) {
    case "busy":
      c.header("Retry-After", String(solved.retryAfterSeconds));
      return refuse(c, {
        status: 503,
        title: "Others are before you",
        detail: `The solver works on one question at a time, and others wait. Try again in ${solved.retryAfterSeconds} seconds.`,
      });
    case "cancelled":
      return refuse(c, {
        status: 503,
        title: "Not worked out",
        detail: "The question was called off before there was an answer. Ask again.",
      });
    case "nothing": {
      const seconds = solverSeconds[c.var.viewer ? "member" : "visitor"];
      return refuse(c, {
        status: 503,
        title: "No answer in time",
        detail: `There was no answer within ${seconds} seconds. Ask for fewer recipes or fewer materials.`,
      });
    }
  }
}
