import { Hono } from "hono";
import { SlurryPage, type TypedSlurry } from "../../views/computing/slurry.tsx";
import { faultsOfSlurry, type Slurry, slurryConditions, slurryOf } from "../chem/slurry.ts";
import { answer } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { assumedDryGravity, slurryBody } from "../wire/slurry-body.ts";

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
    const faults = faultsOfSlurry(read.value);
    if (faults.length > 0) return faulty(c, { faults }, again(faults));
    const slurry = slurryOf(read.value);
    return answer(c, {
      json: () => slurry,
      page: here,
      view: () => shown({ ...unless, ...read.typed }, [], slurry),
    });
  },
);

const shown = (typed: Typed, faults: readonly Fault[], slurry?: Slurry) => {
  const text = (name: keyof TypedSlurry) => String(typed[name] ?? "");
  return SlurryPage({
    typed: {
      specificGravity: text("specificGravity"),
      drySpecificGravity: text("drySpecificGravity"),
      litres: text("litres"),
      targetGravity: text("targetGravity"),
    },
    faults,
    slurry,
  });
};
