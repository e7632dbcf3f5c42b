import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { BodyPage } from "../../views/bodies/body.tsx";
import { BodyForm, SheetForm } from "../../views/bodies/form.tsx";
import { Bodies } from "../../views/bodies/list.tsx";
import { type BodyOnRecord, findBody, listBodies, mayAddSheet } from "../db/bodies.ts";
import { addBody, addBodySheet } from "../db/body-adding.ts";
import { answer, created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired, readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";
import { bodyBody, sheetBody } from "../wire/sheet-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { bodyEntryJson, bodyJson } from "./body-json.ts";

export const bodies = new Hono<Env>();

bodies.get(
  "/",
  described({ says: "The clay bodies of the studio, in the order of names" }),
  readerRequired,
  async (c) => {
    const found = await listBodies(c.var.db);
    return answer(c, {
      json: () => ({ items: found.map(bodyEntryJson), next: null }),
      page: { title: "Bodies", here: "kiln" },
      view: () => <Bodies bodies={found} mayAdd={c.var.viewer !== undefined} />,
    });
  },
);

bodies.get("/new", described({ says: "The form for a new body" }), memberRequired, (c) => {
  const { page: where, view } = bodyForm({}, []);
  return page(c, where, view);
});

bodies.post(
  "/",
  described({
    says: "Put a clay body on record with its first sheet",
    body: bodyBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, bodyBody);
    if (read.kind === "refused") return faulty(c, read, bodyForm(read.typed, read.faults));

    const added = await addBody(c.var.db, { ...read.value, ...actOf(c) });
    switch (added.kind) {
      case "name-taken": {
        const says = `There is a body of this name: /bodies/${added.slug}. Put a new sheet on it, or choose a name that tells the two apart.`;
        const faults = [{ path: "name", says }];
        return faulty(c, { faults }, bodyForm(read.typed, faults));
      }
      case "added":
        return createdBody(c, added.slug);
    }
  },
);

bodies.get(
  "/:slug",
  described({ says: "A clay body: what is known of it, and what was said before" }),
  readerRequired,
  async (c) => {
    const body = await findBody(c.var.db, { slug: c.req.param("slug") });
    if (!body) return notFound(c);
    return answer(c, { json: () => bodyJson(body), ...bodySheet(c, body) });
  },
);

bodies.get(
  "/:slug/sheets/new",
  described({ says: "The form for a new sheet of a body, with what the newest says in it" }),
  memberRequired,
  async (c) => {
    const body = await findBody(c.var.db, { slug: c.req.param("slug") });
    if (!body) return notFound(c);
    if (!mayAddSheet(body, c.var.viewer)) return notAllowed(c, notYours(body), bodySheet(c, body));
    const { page: where, view } = sheetForm(body, typedOf(body), []);
    return page(c, where, view);
  },
);

bodies.post(
  "/:slug/sheets",
  described({
    says: "Say anew what is known of a body: who added it, a reviewer or a manager",
    body: sheetBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const body = await findBody(c.var.db, { slug: c.req.param("slug") });
    if (!body) return notFound(c);
    if (!mayAddSheet(body, c.var.viewer)) return notAllowed(c, notYours(body), bodySheet(c, body));
    const read = await readBody(c, sheetBody);
    if (read.kind === "refused") return faulty(c, read, sheetForm(body, read.typed, read.faults));

    await addBodySheet(c.var.db, { bodyId: body.id, sheet: read.value, ...actOf(c) });
    return createdBody(c, body.slug);
  },
);

const notYours = ({ name, addedBy }: BodyOnRecord): string =>
  `${addedBy.name}, who added ${name}, a reviewer or a manager can put a new sheet on it. Tell one of them what you measured.`;

async function createdBody(c: Ctx, slug: string) {
  const body = await findBody(c.var.db, { slug });
  return created(c, `/bodies/${slug}`, body && bodyJson(body));
}

const bodySheet = (c: Ctx, body: BodyOnRecord) => ({
  page: { title: body.name, here: "kiln" } as const,
  view: () => <BodyPage body={body} maySayAnew={mayAddSheet(body, c.var.viewer)} />,
});

const bodyForm = (typed: Typed, faults: readonly Fault[]) => ({
  page: { title: "Add a body", here: "kiln" } as const,
  view: () => (
    <BodyForm typed={(path) => typedText(typed, path)} faults={faults} idempotencyKey={uuidv7()} />
  ),
});

const sheetForm = (body: BodyOnRecord, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `New sheet of ${body.name}`, here: "kiln" } as const,
  view: () => (
    <SheetForm
      body={body}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});

/** The newest sheet as somebody would have typed it, to change what differs. */
function typedOf({ sheet: { cones, absorption, expansion, colour, about } }: BodyOnRecord): Typed {
  return {
    cones,
    absorption: absorption && { ...absorption, percent: absorption.percent.toFixed() },
    expansion: expansion && {
      value: expansion.value.toFixed(),
      fromCelsius: String(expansion.fromCelsius),
      toCelsius: String(expansion.toCelsius),
      source: expansion.source,
    },
    colour,
    about,
  };
}
