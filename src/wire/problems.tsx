import { html } from "hono/html";
import type { Child } from "hono/jsx";
import type { ContentfulStatusCode } from "hono/utils/http-status";
import { Broken } from "../../views/broken.tsx";
import { Refusal } from "../../views/refusal.tsx";
import type { Studio } from "../db/studios.ts";
import type { Unanswered } from "../db/unanswered.ts";
import { type Page, page, wantsJson } from "./answers.tsx";
import type { Ctx } from "./context.ts";

/** One thing that is wrong and where: `lines.2.amount`, the name of the field too. */
export type Fault = { path: string; says: string };

type Problem = {
  status: ContentfulStatusCode;
  title: string;
  detail: string;
  errors?: readonly Fault[] | undefined;
  /** Further members of the JSON, such as the head that was not known. */
  more?: Record<string, unknown> | undefined;
  type?: string | undefined;
};

/**
 * Refuses: problem+json (RFC 9457), or a page. `view` is the page with what was typed still in it;
 * without one a plain page says what is wrong and where to go.
 */
export function refuse(c: Ctx, problem: Problem, given?: { page: Page; view: () => Child }) {
  const { status, title, detail, errors } = problem;
  // The database answered nothing, not even whose studio this is.
  const studio: Studio | undefined = c.var.studio;
  if (wantsJson(c) || !studio) return plainly(c, problem);
  if (given) return page(c, given.page, given.view, status);
  const next = c.req.method === "GET" ? c.req.path : undefined;
  return page(
    c,
    { title, here: "none" },
    () => <Refusal title={title} says={detail} faults={errors ?? []} next={next} />,
    status,
  );
}

/** Without asking the database for anything: problem+json, or a page that needs nothing else. */
function plainly(c: Ctx, { status, type = "about:blank", title, detail, errors, more }: Problem) {
  if (wantsJson(c)) {
    const json = { type, title, status, detail, ...(errors && { errors }), ...more };
    return c.json(json, status, { "Content-Type": "application/problem+json" });
  }
  const again = c.req.method === "GET" ? c.req.path : "/";
  const document = <Broken title={title} says={detail} again={again} />;
  return c.html(html`<!doctype html>${document}`, status);
}

const wholeOrNot =
  "What you sent was kept whole or not at all; sent again from the same page, it counts once.";

const putOffs: Record<Unanswered, Problem> = {
  away: {
    status: 503,
    title: "The studio's database is away",
    detail: `It does not answer right now. Try again in a moment. ${wholeOrNot}`,
  },
  busy: {
    status: 503,
    title: "Too much at once",
    detail:
      "So many wait for the studio's database that yours was not begun, and nothing was kept of it. Try again in a moment.",
  },
  long: {
    status: 503,
    title: "That took too long",
    detail: "The studio's database was stopped at it, and nothing was kept of it. Try again.",
  },
  full: {
    status: 507,
    title: "The studio's disk is full",
    detail:
      "There is no room to keep anything, and nothing was kept of what you sent. Tell the manager; what is there can be read.",
  },
};

/** Where the database gave no answer: to be tried again, soon. */
export function putOff(c: Ctx, why: Unanswered) {
  if (why !== "full") c.header("Retry-After", "5");
  return plainly(c, putOffs[why]);
}

/** A bug of ours. The page around the words asks the database, which may have broken with it. */
export async function broken(c: Ctx) {
  const problem: Problem = {
    status: 500,
    title: "Something broke here",
    detail: `It is not your doing, and nothing was half-written. Tell the manager this number: ${c.var.requestId}`,
  };
  try {
    return await refuse(c, problem);
  } catch {
    return plainly(c, problem);
  }
}

export const notFound = (c: Ctx) =>
  refuse(c, {
    status: 404,
    title: "Not here",
    detail:
      "There is nothing at this address, or nothing that you may see. Sign in if you have not.",
  });

export const signInFirst = (c: Ctx) =>
  refuse(c, {
    status: 401,
    title: "Sign in first",
    detail: "This is for people of the studio. Sign in, then try again.",
  });

/** @param instead the way that is open: "fork it instead". */
export const notAllowed = (c: Ctx, detail: string, given?: { page: Page; view: () => Child }) =>
  refuse(c, { status: 403, title: "Not yours to change", detail }, given);

export const faulty = (
  c: Ctx,
  { status = 422, faults }: { status?: ContentfulStatusCode; faults: readonly Fault[] },
  given?: { page: Page; view: () => Child },
) =>
  refuse(
    c,
    {
      status,
      title: status === 415 ? "Not a form and not JSON" : "Something needs changing",
      detail: faults.map((fault) => fault.says).join(" "),
      errors: faults,
    },
    given,
  );
