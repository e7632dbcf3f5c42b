import { Hono } from "hono";
import { ContactSheet } from "../../views/tiles/contact-sheet.tsx";
import { WallPage } from "../../views/tiles/wall.tsx";
import { findBody, listBodies } from "../db/bodies.ts";
import { tileAtmospheres } from "../db/tiles.ts";
import { isAnyColoured, listWall } from "../db/wall.ts";
import { answer, page, wantsJson } from "../wire/answers.tsx";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";
import { wallTileJson } from "./wall-json.ts";
import { type AskedWall, type ReadWall, readWall, wallQuery, writePlace } from "./wall-search.ts";

export const wall = new Hono<Env>();

/** How many tiles a page of the wall has, and a contact sheet: four leaves of fifteen. */
const most = 60;

wall.get(
  "/tiles",
  described({
    says: "Every tile as a wall, newest first, or nearest to a colour first",
    query: wallQuery,
  }),
  readerRequired,
  fromReplica(async (c) => {
    const found = await findWall(c);
    if (found.kind === "refused") return faulty(c, found, await wallPage(c, found));
    if (wantsJson(c)) return c.json(found.json);
    const { page: room, view } = await wallPage(c, found);
    return page(c, room, view);
  }),
);

wall.get(
  "/tiles/sheet",
  described({ says: "The same tiles as a contact sheet to print, up to 60", query: wallQuery }),
  readerRequired,
  fromReplica(async (c) => {
    const found = await findWall(c);
    if (found.kind === "refused") return faulty(c, found, await wallPage(c, found));
    const { asked, tiles, next } = found;
    return answer(c, {
      json: () => found.json,
      page: { title: "Contact sheet of tiles", here: "kiln" },
      view: () =>
        ContactSheet({
          tiles,
          asked,
          bodyName: found.body?.name,
          next: next && addressOf("/tiles/sheet", { ...asked, after: next }),
          back: addressOf("/tiles", asked),
          studio: c.var.studio.name,
          on: c.var.now.toISOString().slice(0, 10),
        }),
    });
  }),
);

type Found =
  | Extract<ReadWall, { kind: "refused" }>
  | (Awaited<ReturnType<typeof readTiles>> & { kind: "found" });

/** The tiles that the address asks for, or what is wrong with it. */
async function findWall(c: Ctx): Promise<Found> {
  const read = readWall(c.req.queries());
  if (read.kind === "refused") return read;
  const { body: slug } = read.value;
  const body = slug === undefined ? undefined : await findBody(c.var.db, { slug });
  if (slug !== undefined && !body) {
    const faults = [{ path: "body", says: "There is no such body on record." }];
    return { kind: "refused", faults, asked: read.asked };
  }
  return { kind: "found", ...(await readTiles(c, read, body)) };
}

async function readTiles(
  c: Ctx,
  { value, asked }: Extract<ReadWall, { kind: "read" }>,
  body: { name: string } | undefined,
) {
  const { after, ...search } = value;
  const params = { reader: c.var.viewer, search, after, limit: most };
  const { tiles, next: place } = await listWall(c.var.db, params);
  const next = place && writePlace(place);
  return { tiles, next, asked, body, json: { items: tiles.map(wallTileJson), next } };
}

/** The wall with the form that narrows it, what was asked still in it. */
async function wallPage(c: Ctx, found: Found) {
  const { db, viewer } = c.var;
  const { asked } = found;
  const bodies = await listBodies(db);
  const none = found.kind === "found" && found.tiles.length === 0 && !asked.after;
  const uncoloured = none && asked.colour ? !(await isAnyColoured(db, { reader: viewer })) : false;
  const next = found.kind === "found" ? found.next : null;
  return {
    page: { title: "Tiles", here: "kiln" as const },
    view: () =>
      WallPage({
        tiles: found.kind === "found" ? found.tiles : [],
        asked,
        bodies,
        atmospheres: tileAtmospheres,
        next: next && addressOf("/tiles", { ...asked, after: next }),
        sheet: addressOf("/tiles/sheet", asked),
        uncoloured,
        faults: found.kind === "refused" ? found.faults : [],
      }),
  };
}

const addressOf = (path: string, asked: AskedWall): string => {
  const narrowed = Object.entries(asked).filter(([, value]) => value !== undefined);
  return narrowed.length === 0 ? path : `${path}?${new URLSearchParams(narrowed)}`;
};
