import { Hono } from "hono";
import { z } from "zod";
import { PowderChanges } from "../../views/powder-changes/list.tsx";
import { listPowderChanges, type PowderChange } from "../db/powder-changes.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty } from "../wire/problems.tsx";

export const powderChanges = new Hono<Env>();

const search = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

powderChanges.get(
  "/",
  described({ says: "Recipes whose powders have another analysis in use now", query: search }),
  readerRequired,
  async (c) => {
    const read = check(search, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const found = await listPowderChanges(c.var.db, {
      reader: c.var.viewer,
      after: read.value.after,
      limit: 20,
    });
    return answer(c, {
      json: () => ({
        items: found.items.map(({ change, ...recipe }) => ({
          ...recipe,
          ...powderChangeJson(change),
        })),
        next: found.next,
      }),
      page: { title: "Today's powders", here: "shelf" },
      view: () =>
        PowderChanges({
          items: found.items,
          next: found.next ?? undefined,
          member: c.var.viewer !== undefined,
        }),
    });
  },
);

export const powderChangeJson = ({ powders, now, differences, moves }: PowderChange) => ({
  powders: powders.map(({ material, pinned, inUse }) => ({
    material: material.slug,
    pinned: pinned?.id ?? null,
    inUse: inUse?.id ?? null,
  })),
  moves,
  differences,
  chemistry: now,
});
