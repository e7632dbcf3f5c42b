import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { DataSheetForm } from "../../views/materials/data-sheet.tsx";
import { addDataSheet, signals } from "../db/data-sheets.ts";
import { findMaterialSheet, type MaterialSheet } from "../db/material-sheets.ts";
import { created, page } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import { actOf, type Ctx, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { day, idempotencyKey, line } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { typedText } from "../wire/worksheet-form.ts";
import { materialJson } from "./material-json.ts";

export const dataSheets = new Hono<Env>();

const mostCharacters = 300;

/** A list of sentences, or a text with one on each line. */
const sentences = (most: number) =>
  z.union([z.array(z.string()), z.string()]).transform((given, context) => {
    const typed = typeof given === "string" ? given.split(/\r\n?|\n/) : given;
    const said = typed.map((each) => each.trim().normalize("NFC")).filter((each) => each !== "");
    const wrong = said.findIndex((each) => each.length > mostCharacters || /\p{Cc}/u.test(each));
    if (said.length <= most && wrong === -1) return said;
    const message =
      wrong === -1
        ? `At most ${most} of these.`
        : `Number ${wrong + 1}: one line of plain text with at most ${mostCharacters} characters.`;
    context.addIssue({ code: "custom", message });
    return z.NEVER;
  });

const sheetBody = z.strictObject({
  signal: z.enum(signals),
  statements: sentences(30).default([]),
  precautions: sentences(40).default([]),
  issuedOn: day.optional(),
  source: line(300),
  idempotencyKey,
});

dataSheets.get(
  "/:slug/data-sheets/new",
  described({ says: "The form for what the supplier's safety data sheet says" }),
  managerRequired,
  async (c) => {
    const material = await findSheet(c);
    if (!material) return notFound(c);
    const { page: where, view } = form(material, {}, []);
    return page(c, where, view);
  },
);

dataSheets.post(
  "/:slug/data-sheets",
  described({
    says: "Put down what the supplier's safety data sheet says; the newest counts",
    body: sheetBody,
    status: 201,
  }),
  managerRequired,
  async (c) => {
    const material = await findSheet(c);
    if (!material) return notFound(c);
    const read = await readBody(c, sheetBody);
    if (read.kind === "refused") return faulty(c, read, form(material, read.typed, read.faults));
    const { idempotencyKey: _, issuedOn = null, ...said } = read.value;
    await addDataSheet(c.var.db, { materialId: material.id, ...said, issuedOn, ...actOf(c) });
    const now = await findSheet(c);
    return created(c, `/materials/${material.slug}#data-sheet`, now && materialJson(now));
  },
);

const findSheet = (c: Ctx) =>
  findMaterialSheet(c.var.db, { slug: c.req.param("slug") ?? "", reader: c.var.viewer });

const form = ({ slug, name }: MaterialSheet, typed: Typed, faults: readonly Fault[]) => ({
  page: { title: `Safety data sheet of ${name}`, here: "shelf" } as const,
  view: () => (
    <DataSheetForm
      material={{ slug, name }}
      typed={(path) => typedText(typed, path)}
      faults={faults}
      idempotencyKey={uuidv7()}
    />
  ),
});
