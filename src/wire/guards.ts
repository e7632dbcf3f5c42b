import { bodyLimit } from "hono/body-limit";
import { createMiddleware } from "hono/factory";
import { secureHeaders } from "hono/secure-headers";
import type { Ctx, Env } from "./context.ts";
import { mostLogBytes } from "./firing-log-body.ts";
import { isCsv, isForm, isJson } from "./media-types.ts";
import { refuse } from "./problems.tsx";

const kib = 1024;
const mib = 1024 * kib;

type Limit = {
  path: RegExp;
  most: number;
  says: string;
  /** What this route counts itself while it reads, so that it is not gathered here first. */
  counted?: (contentType: string | undefined) => boolean;
};

/** What may be sent where; a picture and a firing's readings are larger than a form. */
const limits: readonly Limit[] = [
  {
    path: /^\/(tiles|tests|trials\/results)\/[^/]+\/photos$/,
    most: 20 * mib,
    says: "The picture is over 20 MB. Send a smaller one: a phone can share at “medium” or “large” instead of “original”.",
  },
  {
    path: /^\/firings\/[^/]+\/readings$/,
    most: mostLogBytes,
    says: "The readings are over 40 MB. Leave some out: one a second is plenty.",
    counted: isCsv,
  },
  {
    path: /^\/tests\/[^/]+\/report$/,
    // The form around the file is counted too.
    most: 20 * mib + 64 * kib,
    says: "The report is over 20 MB. Ask the laboratory for a smaller file.",
  },
  {
    path: /^\/import$/,
    most: 100 * mib,
    says: "The file is over 100 MB. A studio's whole library of that size is for restoring, not for an import.",
  },
  {
    path: /^\/cone-estimate$/,
    most: mib,
    says: "The readings are over 1 MB. Leave some out: one a minute is plenty.",
  },
  { path: /^/, most: 64 * kib, says: "At most 64 KiB can be sent here." },
];

/** No body is read past its limit. */
export const bodyLimits = createMiddleware<Env>(async (c, next) => {
  // Nothing reads the body of such a request, and to look for one takes as long as a statement.
  if (c.req.method === "GET" || c.req.method === "HEAD") return next();
  const limit = limits.find(({ path }) => path.test(c.req.path));
  if (!limit) return next();
  const { most, says, counted } = limit;
  // A request with a key is read whole before its route sees it.
  const keyed = c.req.header("idempotency-key") !== undefined;
  const sized = c.req.header("content-length") !== undefined;
  if (!sized && !keyed && counted?.(c.req.header("content-type"))) return next();
  return bodyLimit({
    maxSize: most,
    onError: (context) => refuse(context as Ctx, { status: 413, title: "Too large", detail: says }),
  })(c, next);
});

/**
 * A page of another site cannot write here: what a browser may send across sites without asking
 * (forms, or a POST without a type) has to come from our own origin. JSON and CSV it has to ask for,
 * and is never allowed, since no CORS header is ever sent.
 */
export const sameOrigin = createMiddleware<Env>(async (c, next) => {
  const { method } = c.req;
  if (method === "GET" || method === "HEAD" || method === "OPTIONS") return next();
  const type = c.req.header("content-type");
  if (isJson(type) || isCsv(type) || (method !== "POST" && !isForm(type))) return next();
  if (
    c.req.header("sec-fetch-site") === "same-origin" ||
    ownOrigins(c).has(c.req.header("origin") ?? "")
  ) {
    return next();
  }
  return refuse(c, {
    status: 403,
    title: "Sent from somewhere else",
    detail:
      "Forms are taken from this studio's own pages only. Open the page here and send it again.",
  });
});

function ownOrigins(c: Ctx): Set<string> {
  const own = new Set([new URL(c.req.url).origin]);
  const { publicUrl } = c.var.config;
  if (publicUrl) own.add(new URL(publicUrl).origin);
  return own;
}

/** Everything is our own: no script, style, picture or frame comes from elsewhere. */
export const headers = (tls: boolean) =>
  secureHeaders({
    contentSecurityPolicy: {
      defaultSrc: ["'self'"],
      imgSrc: ["'self'", "data:"],
      manifestSrc: ["'self'"],
      objectSrc: ["'none'"],
      baseUri: ["'none'"],
      formAction: ["'self'"],
      frameAncestors: ["'none'"],
    },
    referrerPolicy: "same-origin",
    strictTransportSecurity: tls ? "max-age=31536000" : false,
    xFrameOptions: "DENY",
  });

/** Pages are asked for again each time, by whoever asks, in the form that they ask for. */
export const caches = createMiddleware<Env>(async (c, next) => {
  await next();
  if (!c.res.headers.has("Cache-Control")) c.res.headers.set("Cache-Control", "private, no-cache");
  // Named here, since to put it there later takes the answer apart and makes it anew.
  c.res.headers.append("Vary", "Accept, Accept-Encoding, HX-Request-Type, Cookie");
});
