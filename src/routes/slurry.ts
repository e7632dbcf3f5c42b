import { Hono } from "hono";
import { SlurryPage, type TypedSlurry } from "../../views/computing/slurry.tsx";
import { dryGravityOf, dryGravityWords } from "../chem/blend-slurries.ts";
import { faultsOfSlurry, type Slurry, slurryConditions, slurryOf } from "../chem/slurry.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import { answer } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { assumedDryGravity, type SlurryBody, slurryBody } from "../wire/slurry-body.ts";
import { readSource } from "./lines-source.ts";
import { shelvedId } from "./sent-lines.ts";

export const slurries = new Hono<Env>();

const here = { title: "What is in the slurry?", here: "work-it-out" } as const;
const unless = { drySpecificGravity: assumedDryGravity, litres: "1" } as const;

slurries.get("/", described({ says: "What is taken where nothing is said, and a page" }), (c) =>
  answer(c, {
    json: () => ({ ...unless, says: slurryConditions }),
    page: here,
    view: () => shown(unless, []),
  }),
);

slurries.post(
  "/",
  described({
    says: "What a slurry of a gravity holds, and the water that brings it to another",
    body: slurryBody,
  }),
  async (c) => {
    const read = await readBody(c, slurryBody);
    const again = (faults: readonly Fault[]) => ({
      page: here,
      view: () => shown(read.typed, faults),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));
    const powder = await powderOf(c, read.value);
    if (powder.kind === "faulty") return faulty(c, powder, again(powder.faults));
    const { drySpecificGravity } = powder;
    const request = { ...read.value, drySpecificGravity };
    const faults = faultsOfSlurry(request);
    if (faults.length > 0) return faulty(c, { faults }, again(faults));
    const worked = slurryOf(request);
    const slurry = { ...worked, says: [powder.says, worked.says].filter(Boolean).join(" ") };
    const dry = drySpecificGravity.toDecimalPlaces(3).toFixed();
    return answer(c, {
      json: () => ({ ...slurry, ...(powder.says && { drySpecificGravity: dry }) }),
      page: here,
      view: () => shown({ ...unless, ...read.typed, drySpecificGravity: dry }, [], slurry),
    });
  },
);

type Powder =
  | { kind: "powder"; drySpecificGravity: SlurryBody["drySpecificGravity"]; says?: string }
  | { kind: "faulty"; status: 404 | 422; faults: Fault[] };

/** The dry gravity as it was sent, or of a recipe's powders as they are on the shelf today. */
async function powderOf(c: Ctx, { recipe, drySpecificGravity }: SlurryBody): Promise<Powder> {
  if (!recipe) return { kind: "powder", drySpecificGravity };
  if (!c.var.viewer && !c.var.studio.showsPublic) {
    const says = "Sign in to name a recipe: this studio shows its recipes to its own people.";
    return { kind: "faulty", status: 404, faults: [{ path: "recipe", says }] };
  }
  const asked = { lines: undefined, recipe, revision: undefined, text: undefined };
  const source = await readSource(c, asked);
  if (source.kind === "faulty") return source;
  const lines = await withDryGravities(c.var.db, source.lines, shelvedId);
  return {
    kind: "powder",
    drySpecificGravity: dryGravityOf(lines).value,
    says: dryGravityWords(lines),
  };
}

const shown = (typed: Typed, faults: readonly Fault[], slurry?: Slurry) => {
  const text = (name: keyof TypedSlurry) => String(typed[name] ?? "");
  return SlurryPage({
    typed: {
      specificGravity: text("specificGravity"),
      drySpecificGravity: text("drySpecificGravity"),
      litres: text("litres"),
      targetGravity: text("targetGravity"),
      recipe: text("recipe"),
    },
    faults,
    slurry,
  });
};
