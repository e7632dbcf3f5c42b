import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { RestatePage } from "../../views/restate/page.tsx";
import { holdableModels } from "../chem/restate-means.ts";
import { restatable } from "../chem/restating.ts";
import { listRegions } from "../db/names-in-region.ts";
import { listShelf } from "../db/shelf.ts";
import { answer } from "../wire/answers.tsx";
import { readBody, type Typed } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { isForm } from "../wire/media-types.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, refuse } from "../wire/problems.tsx";
import { mostOnShelf, restateBody, restateForm } from "../wire/restate-body.ts";
import { typedText } from "../wire/worksheet-form.ts";
import { solver } from "../work/solver.ts";
import { perKilogram, priced } from "./restate-cost.ts";
import { type RestatedAnswer, restatedAnswer } from "./restate-json.ts";
import { byAnalyses, calledThere, faultsOfRegion } from "./restate-powders.ts";
import { boundsOf, conditionsIn, readShelf, readTarget, type Target } from "./restate-reading.ts";
import { askerOf, unsolved } from "./solved.ts";

export const restating = new Hono<Env>();

const here = { title: "Restate a glaze", here: "work-it-out" } as const;

restating.get(
  "/",
  described({ says: "What a glaze can be restated from, and a page that does it" }),
  readerRequired,
  async (c) => {
    const materials = await choices(c);
    const regions = await listRegions(c.var.db);
    const typed = { target: { text: c.req.query("recipe") ?? "" }, keepAdditions: "on" };
    return answer(c, {
      json: () => ({ most: mostOnShelf, materials, regions }),
      page: here,
      view: () => shown(c, { materials, regions, typed, faults: [] }),
    });
  },
);

restating.post(
  "/",
  described({
    says: "The same glaze from other materials, or the nearest to it; nothing stored",
    body: restateBody,
  }),
  readerRequired,
  async (c) => {
    const sentForm = isForm(c.req.header("content-type"));
    const read = await readBody(c, sentForm ? restateForm : restateBody);
    const materials = sentForm ? await choices(c) : [];
    const regions = await listRegions(c.var.db);
    const again = (faults: readonly Fault[]) => ({
      page: here,
      view: () => shown(c, { materials, regions, typed: read.typed, faults }),
    });
    if (read.kind === "refused") return faulty(c, read, again(read.faults));
    const targeted = await readTarget(c, read.value.target);
    if (targeted.kind === "faulty") return faulty(c, targeted, again(targeted.faults));
    const { target } = targeted;
    const nowhere = faultsOfRegion(read.value, regions);
    if (nowhere.length > 0) return faulty(c, { faults: nowhere }, again(nowhere));
    const inUse = await readShelf(c.var.db, read.value);
    if (inUse.faults.length > 0) return faulty(c, inUse, again(inUse.faults));
    const found = await byAnalyses(c, read.value, inUse);
    if (found.faults.length > 0) return faulty(c, found, again(found.faults));
    const onShelf = await priced(c, read.value, target, found);
    if (onShelf.faults.length > 0) return faulty(c, onShelf, again(onShelf.faults));

    const began = performance.now();
    const { wanted, counted } = target;
    const { most, keepAdditions } = read.value;
    const solved = await solver.solve(
      "restate",
      {
        ...{ wanted, counted, most },
        ...conditionsIn(read.value),
        bounds: boundsOf(read.value),
        shelf: onShelf.shelf.map((each) =>
          restatable({ ...each, perKilogram: perKilogram(onShelf.prices, each) }),
        ),
      },
      askerOf(c),
    );
    if (solved.kind !== "done" && solved.kind !== "stopped") return unsolved(c, solved);
    const restated = solved.kind === "done" ? solved.output : solved.best;
    if (restated.kind === "late") return refuse(c, tooLate);
    const seconds = Math.round(performance.now() - began) / 1000;
    const { shelf } = onShelf;
    const called = await calledThere(c, read.value, { shelf, additions: target.additions });
    const answered = restatedAnswer(restated, {
      target,
      read: onShelf,
      keepAdditions,
      seconds,
      called,
    });
    return answer(c, {
      json: () => answered,
      page: here,
      view: () =>
        shown(c, { materials, regions, typed: read.typed, faults: [], target, found: answered }),
    });
  },
);

const tooLate = {
  status: 503 as const,
  title: "No answer in time",
  detail: "The time was up before there was any answer. Ask with fewer materials.",
};

async function choices(c: Ctx) {
  const { materials } = await listShelf(c.var.db, { limit: mostOnShelf });
  return materials.flatMap(({ slug, name, stillSold, inUse }) =>
    inUse ? [{ slug, name, stillSold }] : [],
  );
}

type Shown = {
  regions: readonly string[];
  materials: { slug: string; name: string; stillSold: boolean }[];
  typed: Typed;
  faults: readonly Fault[];
  target?: Target;
  found?: RestatedAnswer;
};

function shown(c: Ctx, { materials, regions, typed, faults, target, found }: Shown) {
  const ticked = typed.shelf;
  return RestatePage({
    materials,
    regions,
    models: holdableModels,
    typed: {
      text: (name) => typedText(typed, name),
      shelf: (Array.isArray(ticked) ? ticked : [ticked]).filter((each) => typeof each === "string"),
    },
    faults,
    member: c.var.viewer !== undefined,
    idempotencyKey: uuidv7(),
    found: found &&
      target && { ...found, wanted: target.wanted, counted: target.counted, recipe: target.recipe },
  });
}
