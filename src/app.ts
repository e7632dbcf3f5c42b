import { createHash } from "node:crypto";
import { Hono } from "hono";
import { compress } from "hono/compress";
import { etag } from "hono/etag";
import { requestId } from "hono/request-id";
import { type Auth, openAuth } from "./auth.ts";
import type { Config } from "./config.ts";
import type { Db } from "./db/client.ts";
import type { Replica } from "./db/replica.ts";
import { findStudio, openStudio } from "./db/studios.ts";
import { whyUnanswered } from "./db/unanswered.ts";
import { assets } from "./routes/assets.ts";
import { health } from "./routes/health.ts";
import { metrics } from "./routes/metrics.ts";
import { rooms } from "./routes/rooms.ts";
import { clientAddresses } from "./wire/client-address.ts";
import type { Counted, Env } from "./wire/context.ts";
import { bodyLimits, caches, headers, sameOrigin } from "./wire/guards.ts";
import { broken, notFound, putOff } from "./wire/problems.tsx";
import { readingCookie } from "./wire/reading.ts";
import { repeatable } from "./wire/repeats.ts";
import { noteWrites } from "./wire/replica.ts";
import { routeOf, type Telling, tellAnswered } from "./wire/telling.ts";

type Parts = {
  db: Db;
  config: Config;
  auth: Auth;
  telling: Telling;
  metrics?: Counted | undefined;
  replica?: Replica | undefined;
};

/** Puts the rooms together behind what every request goes through. */
export function createApp({
  db,
  config,
  auth,
  telling,
  metrics: counted,
  replica,
}: Parts): Hono<Env> {
  const app = new Hono<Env>();
  const lists = replica && { replica, tell: telling.listed };
  const tls = config.publicUrl?.startsWith("https:") ?? false;
  const addressOf = clientAddresses(config.trustedProxies);

  app.use(compress(), requestId(), tellAnswered(telling), headers(tls));
  app.use(async (c, next) => {
    c.set("metrics", counted);
    c.set("db", db);
    c.set("lists", lists);
    c.set("config", config);
    c.set("auth", auth);
    c.set("now", new Date());
    c.set("clientAddress", addressOf(c));
    await next();
  });
  app.route("/", assets);
  app.route("/", health);
  app.route("/", metrics);
  app.use(caches, etag({ generateDigest }));
  app.use(async (c, next) => {
    // Read anew each time: another instance may have set it.
    const [studio, signedIn] = await Promise.all([
      findStudio(db),
      auth.read(db, c.req.header("cookie") ?? ""),
    ]);
    c.set("studio", studio);
    c.set("signedIn", signedIn);
    c.set("viewer", signedIn?.person);
    c.set("reading", signedIn?.preferences ?? readingCookie(c));
    if (signedIn?.cookie) c.header("Set-Cookie", signedIn.cookie);
    await next();
  });
  // Postgres takes no NUL in a text, and no address of ours has one.
  app.use(async (c, next) => (/%00/.test(c.req.url) ? notFound(c) : next()));
  app.use(bodyLimits, sameOrigin, noteWrites, repeatable);
  app.route("/", rooms(app));

  app.notFound(notFound);
  app.onError((error, c) => {
    telling.broken({ id: c.var.requestId, method: c.req.method, route: routeOf(c), error });
    const why = whyUnanswered(error);
    return why ? putOff(c, why) : broken(c);
  });
  return app;
}

/** At once: handing some kilobytes to another thread takes longer than the digest. */
const generateDigest = (body: Uint8Array): ArrayBuffer =>
  new Uint8Array(createHash("sha1").update(body).digest()).buffer;

/** The app on an open database, with its studio there. */
export async function openApp(
  db: Db,
  config: Config,
  telling: Telling,
  counted?: Counted,
  replica?: Replica,
) {
  await openStudio(db, config.studioName);
  const auth = openAuth(config.publicUrl?.startsWith("https:") ?? false);
  return createApp({ db, config, auth, telling, metrics: counted, replica });
}
