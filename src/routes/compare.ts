import { Hono } from "hono";
import { z } from "zod";
import { CompareForm, ComparePage } from "../../views/compare/page.tsx";
import { comparisonOf, findSide } from "../db/comparisons.ts";
import { answer } from "../wire/answers.tsx";
import { check } from "../wire/body.ts";
import { conventionFields } from "../wire/chemistry-body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { revisionAddress } from "../wire/revision-address.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { compareJson } from "./compare-json.ts";
import { conventionsOf, countedByOf, usualAddress } from "./conventions.ts";

export const compare = new Hono<Env>();

const { unity, iron, boron } = conventionFields;

const asked = z.object({
  left: revisionAddress.optional(),
  right: revisionAddress.optional(),
  unity: unity.unwrap().optional(),
  iron: iron.unwrap().optional(),
  boron: boron.unwrap().optional(),
});

compare.get(
  "/",
  described({ says: "Two revisions side by side, in lines and in chemistry", query: asked }),
  readerRequired,
  async (c) => {
    const given = Object.fromEntries(Object.entries(c.req.query()).filter(([, text]) => text));
    const typed = { left: typedText(given, "left"), right: typedText(given, "right") };
    const read = check(asked, given);
    if (read.kind === "refused") return faulty(c, read, form(typed, read.faults));
    const { left, right } = read.value;
    if (!left || !right) {
      const json = () => ({ left: typed.left || null, right: typed.right || null });
      return answer(c, { json, ...form(typed, []) });
    }

    const [one, other] = [await sideOf(c, left), await sideOf(c, right)];
    if (!one || !other) return notFound(c);
    const comparison = comparisonOf(one.revision, other.revision, conventionsOf(c, given));
    const counted = { by: countedByOf(c, given), usual: usualAddress(c) };
    return answer(c, {
      json: () => compareJson(one, other, comparison),
      page: { title: `${one.recipe.name} beside ${other.recipe.name}`, here: "library" },
      view: () => ComparePage({ left: one, right: other, comparison, typed, counted }),
    });
  },
);

const sideOf = (c: Ctx, at: z.output<typeof revisionAddress>) =>
  findSide(c.var.db, { ...at, reader: c.var.viewer, now: c.var.now });

const form = (typed: { left: string; right: string }, faults: readonly Fault[]) => ({
  page: { title: "Compare two glazes", here: "library" } as const,
  view: () => CompareForm({ typed, faults }),
});
