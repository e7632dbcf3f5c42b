import type { HttpBindings } from "@hono/node-server";
import type { Context } from "hono";
import type { Auth, SignedIn } from "../auth.ts";
import type { Config } from "../config.ts";
import type { Db } from "../db/client.ts";
import type { Preferences } from "../db/preferences.ts";
import type { Replica } from "../db/replica.ts";
import type { Studio } from "../db/studios.ts";

/** What every handler finds in `c.var`. */
export type Env = {
  Bindings: Partial<HttpBindings>;
  Variables: {
    /** The pool, or the transaction of a request that may be repeated. */
    db: Db;
    /** What lists may be read from instead, and who is told where they were. */
    lists: Lists | undefined;
    config: Config;
    auth: Auth;
    studio: Studio;
    signedIn: SignedIn | undefined;
    viewer: SignedIn["person"] | undefined;
    /** How whoever asks wants pages to read; JSON is the same for everybody. */
    reading: Preferences;
    now: Date;
    clientAddress: string;
    requestId: string;
    /** What this instance counts, where anybody may read it. */
    metrics: Counted | undefined;
  };
};

/** Where a list was read, and why on the primary where it was. */
export type ListRead =
  | "replica"
  | "primary: replica away"
  | "primary: replica behind"
  | "primary: replica of another database"
  | "primary: own writes"
  | "primary: asked for"
  | "primary: replica failed";

export type Lists = { replica: Replica; tell?: ((read: ListRead) => void) | undefined };

/** Counts in the text format of Prometheus. */
export type Counted = { text: () => Promise<string>; contentType: string };

export type Ctx = Context<Env>;

/** Who is asking, where a `memberRequired` or `managerRequired` stands before the handler. */
export function memberOf(c: Ctx): SignedIn["person"] {
  const { viewer } = c.var;
  if (!viewer) throw new Error("this route lacks memberRequired");
  return viewer;
}

/** What the query modules are told of who acts and when. */
export const actOf = (c: Ctx): { by: string; at: Date } => ({ by: memberOf(c).id, at: c.var.now });
