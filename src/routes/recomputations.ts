import { Hono } from "hono";
import { z } from "zod";
import { Recomputations } from "../../views/recomputations/list.tsx";
import { engine } from "../chem/chemistry.ts";
import { countStale, listEngineMoves } from "../db/recomputing.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";

export const recomputations = new Hono<Env>();

const search = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

recomputations.get(
  "/",
  described({ says: "What this engine sees otherwise in stored revisions", query: search }),
  readerRequired,
  async (c) => {
    const read = check(search, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { db, viewer: reader } = c.var;
    const found = await listEngineMoves(db, { reader, after: read.value.after, limit: 51 });
    const items = found.slice(0, 50);
    const next = found.length > 50 ? items.at(-1)?.id : undefined;
    const stale = await countStale(db);
    return answer(c, {
      json: () => ({
        engine,
        stale,
        items: items.map(({ id: _, ...item }) => item),
        next: next ?? null,
      }),
      page: { title: "What a new engine sees otherwise", here: "none" },
      view: () => Recomputations({ engine, stale, items, next }),
    });
  },
);
