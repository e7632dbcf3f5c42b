import { bodyLimit } from "hono/body-limit";
import { createMiddleware } from "hono/factory";
import { secureHeaders } from "hono/secure-headers";
import type { Ctx, Env } from "./context.ts";
import { isForm, isJson } from "./media-types.ts";
import { refuse } from "./problems.tsx";

const uploadPath = /^\/tiles\/[^/]+\/photos$/;
const kib = 1024;
export const largestBody = 64 * kib;
export const largestUpload = 20 * kib * kib;

/** No body is read past its limit: 64 KiB, or 20 MiB where a picture is sent. */
export const bodyLimits = createMiddleware<Env>(async (c, next) => {
  const upload = uploadPath.test(c.req.path);
  const most = upload ? largestUpload : largestBody;
  const limit = bodyLimit({
    maxSize: most,
    onError: (context) =>
      refuse(context as Ctx, {
        status: 413,
        title: "Too large",
        detail: upload
          ? "The picture is over 20 MB. Send a smaller one: a phone can share at “medium” or “large” instead of “original”."
          : "At most 64 KiB can be sent here.",
      }),
  });
  return limit(c, next);
});

/**
 * A page of another site cannot write here: what a browser may send across sites without asking
 * (forms, or a POST without a type) has to come from our own origin. JSON it has to ask for, and is
 * never allowed, since no CORS header is ever sent.
 */
export const sameOrigin = createMiddleware<Env>(async (c, next) => {
  const { method } = c.req;
  if (method === "GET" || method === "HEAD" || method === "OPTIONS") return next();
  const type = c.req.header("content-type");
  if (isJson(type) || (method !== "POST" && !isForm(type))) return next();
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
  c.res.headers.append("Vary", "Accept, HX-Request-Type, Cookie");
});
