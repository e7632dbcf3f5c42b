import { Hono } from "hono";
import { v5 as uuidv5 } from "uuid";
import { FreshFeed } from "../../views/account/fresh-feed.tsx";
import { listWaiting } from "../db/waiting.ts";
import { closeFeed, findFeedReader, openFeed } from "../db/wishes.ts";
import { changed, page, wantsJson } from "../wire/answers.tsx";
import { atomDocument } from "../wire/atom.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { notFound } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";
import { unrepeatable } from "../wire/unrepeatable.ts";

export const feeds = new Hono<Env>();

// A repeat would have to keep the address in plain text for a day, so this call takes no key:
// tapping twice makes a new address, and the one before it answers nothing.
feeds.post(
  "/account/feed",
  described({ says: "Open a feed of what waits for you, or renew its address", status: 201 }),
  unrepeatable,
  memberRequired,
  async (c) => {
    const { path } = await openFeed(c.var.db, actOf(c));
    const link = `${originOf(c)}${path}`;
    c.header("Location", "/account#telling");
    c.header("Cache-Control", "no-store");
    if (wantsJson(c)) return c.json({ link }, 201);
    return page(c, { title: "Your feed", here: "account" }, () => <FreshFeed link={link} />, 201);
  },
);

const close = async (c: Ctx) => {
  await closeFeed(c.var.db, actOf(c));
  return changed(c, "/account#telling", { feed: false });
};

const closes = described({ says: "Close your feed: its address answers nothing any more" });
feeds.delete("/account/feed", closes, memberRequired, close);
feeds.post("/account/feed/end", closes, memberRequired, close);

// A feed reader has no session: the address is the key, and shows what its person may read now.
feeds.get(
  "/feeds/:token",
  described({ says: "What waits for the person whose feed it is, as Atom (RFC 4287)" }),
  async (c) => {
    const token = c.req.param("token");
    // The address is looked up on the primary: one that was closed answers nothing at once.
    const reader = await findFeedReader(c.var.db, { token });
    if (!reader) return notFound(c);
    return fromReplica((lists) => feedOf(lists, { reader, token }))(c);
  },
);

type FeedReader = NonNullable<Awaited<ReturnType<typeof findFeedReader>>>;

async function feedOf(c: Ctx, { reader, token }: { reader: FeedReader; token: string }) {
  const { db, now, studio } = c.var;
  const items = await listWaiting(db, { reader, now });
  const origin = originOf(c);
  const feed = atomDocument({
    id: urnOf(reader.id, "feed"),
    title: `What waits for you at ${studio.name}`,
    author: studio.name,
    self: `${origin}/feeds/${token}`,
    page: `${origin}/waiting`,
    updated: items[0]?.at ?? reader.joinedAt,
    entries: items.map(({ kind, says, href, at, by }) => ({
      id: urnOf(reader.id, `${kind} ${href} ${at.toISOString()}`),
      title: says,
      link: `${origin}${href}`,
      updated: at,
      author: by ?? studio.name,
    })),
  });
  c.header("X-Robots-Tag", "noindex, nofollow");
  return c.body(feed, 200, { "Content-Type": "application/atom+xml; charset=utf-8" });
}

/** The same for the same thing at every reading, wherever the studio is reached. */
const urnOf = (personId: string, what: string): string => `urn:uuid:${uuidv5(what, personId)}`;

const originOf = (c: Ctx): string => c.var.config.publicUrl ?? new URL(c.req.url).origin;
