import { Hono } from "hono";
import { createMiddleware } from "hono/factory";
import { GoneHandout } from "../../views/handouts/gone.tsx";
import { countLeftOut, findPiecePicture } from "../db/handout-pieces.ts";
import { findHandout } from "../db/handouts.ts";
import { pictureType } from "../db/pictures.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { handoutQuery, ownBody } from "../wire/handout-query.ts";
import { refuse } from "../wire/problems.tsx";
import { answerHandout, answerRestated, askedOf } from "./handout-answers.ts";
import { widthOf } from "./photos.ts";

export const handedOut = new Hono<Env>();

/** Nothing of it is for a search engine, nor for a copy that outlives the link. */
const forTheHolder = createMiddleware<Env>(async (c, next) => {
  c.header("X-Robots-Tag", "noindex, nofollow");
  c.header("Cache-Control", "no-store");
  await next();
});

const gone = (c: Ctx) =>
  refuse(
    c,
    {
      status: 404,
      title: "Not handed out",
      detail:
        "This link hands nothing out: it was ended, or part of its address is missing. Ask whoever gave it to you.",
    },
    { page: { title: "Not handed out", here: "none", alone: true }, view: GoneHandout },
  );

/** What a token hands out, with the page around it; whoever holds it reads it, signed in or not. */
async function found(c: Ctx) {
  const token = c.req.param("token") ?? "";
  const { db } = c.var;
  const handout = await findHandout(db, { token });
  if (!handout) return undefined;
  const { family, revisionIds, region, madeAt } = handout;
  const address = `/handouts/${encodeURIComponent(token)}`;
  const left = family ? await countLeftOut(db, { familyId: family.id, revisionIds }) : 0;
  return {
    source: {
      ...{ revisionIds, region, madeAt, inside: false, photosAt: `${address}/photos` },
      family: family && { name: family.name, intro: family.intro },
      leftOut: left > 0 ? leftOut(left) : null,
    },
    around: { ...{ alone: true, address, linkAt: null, back: null } },
  };
}

const leftOut = (count: number): string =>
  count === 1
    ? "One recipe of this family is not in this handout."
    : `${count} recipes of this family are not in this handout.`;

handedOut.get(
  "/handouts/:token",
  described({ says: "What a link hands out to whoever holds it", query: handoutQuery }),
  forTheHolder,
  async (c) => {
    const held = await found(c);
    if (!held) return gone(c);
    return answerHandout(c, held.source, held.around, askedOf(c, handoutQuery));
  },
);

handedOut.post(
  "/handouts/:token",
  described({ says: "The same from the holder's own powders; nothing stored", body: ownBody }),
  forTheHolder,
  async (c) => {
    const held = await found(c);
    if (!held) return gone(c);
    return answerRestated(c, held.source, held.around, askedOf(c, handoutQuery));
  },
);

handedOut.get(
  "/handouts/:token/photos/:sha256/:width{200|600|1200|full}",
  described({ says: "A picture of a tile that a link shows" }),
  forTheHolder,
  async (c) => {
    const { token, sha256, width: asked } = c.req.param();
    const { db, studio } = c.var;
    const handout = await findHandout(db, { token });
    const width = widthOf[asked];
    if (!handout || width === undefined) return gone(c);
    const { revisionIds } = handout;
    const { showsPublic } = studio;
    const picture = await findPiecePicture(db, { sha256, width, revisionIds, showsPublic });
    if (picture?.kind !== "found") return gone(c);
    return c.body(new Uint8Array(picture.bytes), 200, {
      "Content-Type": pictureType,
      "Content-Length": String(picture.bytes.length),
    });
  },
);
