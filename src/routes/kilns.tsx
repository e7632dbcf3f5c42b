import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { KilnPage } from "../../views/kilns/kiln.tsx";
import { Kilns } from "../../views/kilns/list.tsx";
import { listFirings } from "../db/firings.ts";
import { addKiln, type FoundKiln, findKiln, listKilns } from "../db/kilns.ts";
import { answer, created } from "../wire/answers.tsx";
import { check, readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line, text } from "../wire/fields.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { firingJson } from "./firing-json.ts";

export const kilns = new Hono<Env>();

const kilnBody = z.strictObject({
  name: line(80),
  about: text(2000, 0).default(""),
  idempotencyKey,
});

const asked = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

kilns.get(
  "/",
  described({ says: "The kilns of the studio, in the order of names" }),
  readerRequired,
  async (c) => {
    const { found, page: where, view } = await kilnList(c);
    return answer(c, {
      json: () => ({ items: found.map(kilnJson), next: null }),
      page: where,
      view,
    });
  },
);

kilns.post(
  "/",
  described({ says: "Put a kiln on record", body: kilnBody, status: 201 }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, kilnBody);
    if (read.kind === "refused") return faulty(c, read, await kilnList(c, read.typed, read.faults));

    const { name, about } = read.value;
    const added = await addKiln(c.var.db, { name, about, ...actOf(c) });
    switch (added.kind) {
      case "name-taken": {
        const says = `There is a kiln of this name: /kilns/${added.slug}. Choose a name that tells the two apart.`;
        const faults = [{ path: "name", says }];
        return faulty(c, { faults }, await kilnList(c, read.typed, faults));
      }
      case "added": {
        const kiln = await findKiln(c.var.db, { slug: added.slug });
        return created(c, `/kilns/${added.slug}`, kiln && kilnJson(kiln));
      }
    }
  },
);

kilns.get(
  "/:slug",
  described({ says: "A kiln and its firings, newest first", query: asked }),
  readerRequired,
  async (c) => {
    const kiln = await findKiln(c.var.db, { slug: c.req.param("slug") });
    if (!kiln) return notFound(c);
    const read = check(asked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const fired = await listFirings(c.var.db, { kilnId: kiln.id, after: read.value.after });
    return answer(c, {
      json: () => ({
        ...kilnJson(kiln),
        firings: { items: fired.items.map(firingJson), next: fired.next },
      }),
      page: { title: kiln.name, here: "kiln" },
      view: () => (
        <KilnPage
          kiln={kiln}
          firings={fired.items}
          next={fired.next === null ? null : `/kilns/${kiln.slug}?after=${fired.next}`}
          mayAdd={c.var.viewer !== undefined}
        />
      ),
    });
  },
);

const kilnJson = ({ slug, name, about, addedBy, addedAt }: FoundKiln) => ({
  slug,
  name,
  about,
  addedBy,
  addedAt: addedAt.toISOString(),
});

/** The list, with the form below it and what was typed in that. */
async function kilnList(c: Ctx, typed: Typed = {}, faults: readonly Fault[] = []) {
  const found = await listKilns(c.var.db);
  return {
    found,
    page: { title: "Kilns", here: "kiln" } as const,
    view: () => (
      <Kilns
        kilns={found}
        mayAdd={c.var.viewer !== undefined}
        typed={(path) => typedText(typed, path)}
        faults={faults}
        idempotencyKey={uuidv7()}
      />
    ),
  };
}
