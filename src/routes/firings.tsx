import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { FiringForm } from "../../views/firings/form.tsx";
import { Firings } from "../../views/firings/list.tsx";
import { addFiring } from "../db/firing-adding.ts";
import { findFiring, firingKinds, listFirings } from "../db/firings.ts";
import { findKiln, listKilns } from "../db/kilns.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { firingBody } from "../wire/firing-body.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { firingJson, firingWithTilesJson } from "./firing-json.ts";
import { firingOnRecord, firingSheet } from "./firing-sheet.ts";

export const firings = new Hono<Env>();

const asked = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

firings.get(
  "/",
  described({ says: "Firings by when they began, newest first", query: asked }),
  readerRequired,
  async (c) => {
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { items, next } = await listFirings(c.var.db, read.value);
    return answer(c, {
      json: () => ({ items: items.map(firingJson), next }),
      page: { title: "Firings", here: "kiln" },
      view: () => (
        <Firings
          firings={items}
          next={next === null ? null : `/firings?after=${next}`}
          mayAdd={c.var.viewer !== undefined}
        />
      ),
    });
  },
);

const newFiring = z.object({ kiln: z.string().max(80).optional() });

firings.get(
  "/new",
  described({ says: "The form that puts a firing on record", query: newFiring }),
  memberRequired,
  async (c) => {
    const read = check(newFiring, c.req.query());
    const typed = read.kind === "read" ? read.value : {};
    const { page: where, view } = await form(c, typed, []);
    return page(c, where, view);
  },
);

firings.post(
  "/",
  described({ says: "Put a firing on record", body: firingBody, status: 201 }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, firingBody);
    const again = async (faults: readonly Fault[]) =>
      faulty(c, { faults }, await form(c, read.typed, faults));
    if (read.kind === "refused") return faulty(c, read, await form(c, read.typed, read.faults));

    const { kiln: slug, idempotencyKey: _, ...fired } = read.value;
    if (fired.startedAt > c.var.now) {
      return again([{ path: "startedAt", says: "That has not come yet. Times here are UTC." }]);
    }
    const kiln = await findKiln(c.var.db, { slug });
    if (!kiln) {
      return again([{ path: "kiln", says: "There is no such kiln. Put it on record first." }]);
    }
    const id = await addFiring(c.var.db, { kilnId: kiln.id, ...fired, ...actOf(c) });
    const firing = await findFiring(c.var.db, { id });
    const record = firing && (await firingOnRecord(c, firing));
    return created(c, `/firings/${id}`, record && firingWithTilesJson(record));
  },
);

firings.get(
  "/:id",
  described({ says: "A firing: programme, witness cones, readings, cost, and the tiles in it" }),
  readerRequired,
  async (c) => {
    const firing = await findFiring(c.var.db, { id: c.req.param("id") });
    if (!firing) return notFound(c);
    const record = await firingOnRecord(c, firing);
    return answer(c, { json: () => firingWithTilesJson(record), ...firingSheet(c, record) });
  },
);

/** The form with what was typed still in it. */
async function form(c: Ctx, typed: Typed, faults: readonly Fault[]) {
  const kilns = await listKilns(c.var.db);
  return {
    page: { title: "Put a firing on record", here: "kiln" } as const,
    view: () => (
      <FiringForm
        kilns={kilns}
        kinds={firingKinds}
        typed={(path) => typedText(typed, path)}
        faults={faults}
        idempotencyKey={uuidv7()}
      />
    ),
  };
}
