import { Hono } from "hono";
import { z } from "zod";
import { Trials } from "../../views/trials/list.tsx";
import { TrialPage } from "../../views/trials/trial.tsx";
import { pointsOf } from "../chem/blends.ts";
import { addTrial } from "../db/trial-adding.ts";
import { listTrials } from "../db/trials.ts";
import { answer, created } from "../wire/answers.tsx";
import { type BlendBody, blendBody } from "../wire/blend-body.ts";
import { check, readBody } from "../wire/body.ts";
import { actOf, type Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { type FoundCorner, readBlend } from "./blend-reading.ts";
import { blendSheet } from "./blends.ts";
import { listedJson, trialJson } from "./trial-json.ts";
import { readTrial } from "./trial-reading.ts";

export const trials = new Hono<Env>();

const listAsked = z.object({
  after: z.uuid({ error: "This is not a place in the list." }).optional(),
});

trials.get(
  "/",
  described({ says: "The studio's trials, newest first", query: listAsked }),
  memberRequired,
  async (c) => {
    const read = check(listAsked, c.req.query());
    if (read.kind === "refused") return faulty(c, read);
    const { items, next } = await listTrials(c.var.db, { ...read.value, reader: c.var.viewer });
    return answer(c, {
      json: () => ({ items: items.map(listedJson), next }),
      page: { title: "Trials", here: "kiln" },
      view: () => Trials({ trials: items, next: next && `/trials?after=${next}` }),
    });
  },
);

trials.post(
  "/",
  described({
    says: "Put a trial on record: a blend with a name, each of its points pinned to the shelf",
    body: blendBody,
    status: 201,
  }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, blendBody);
    if (read.kind === "refused")
      return faulty(c, read, await blendSheet(c, read.typed, read.faults));
    const body = read.value;
    const found = await readBlend(c, body);
    const faults = [
      ...(body.name === undefined ? [{ path: "name", says: "A trial needs a name." }] : []),
      ...(found.kind === "faulty" ? found.faults : faultsOfKeeping(body, found)),
    ];
    if (faults.length > 0 || found.kind === "faulty" || body.name === undefined) {
      const status = found.kind === "faulty" ? found.status : 422;
      return faulty(c, { status, faults }, await blendSheet(c, read.typed, faults));
    }
    const points = pointsOf(found.blend).map(({ n, at, lines }) => ({
      n,
      shares: at,
      lines: lines.flatMap(({ part, amount, pinned }) =>
        pinned ? [{ part, amount, ...pinned }] : [],
      ),
    }));
    const id = await addTrial(c.var.db, {
      name: body.name,
      kind: body.kind,
      measure: body.measure,
      about: body.about,
      question: questionOf(body, found.corners),
      points,
      ...actOf(c),
    });
    const trial = await readTrial(c, id);
    return created(c, `/trials/${id}`, trial && trialJson(trial));
  },
);

type Found = Extract<Awaited<ReturnType<typeof readBlend>>, { kind: "read" }>;

/** A trial is the studio's to read and stays: of the shelf, and of nothing that is private. */
function faultsOfKeeping(body: BlendBody, { blend, corners }: Found): Fault[] {
  const pathOf = (at: number) => (body.kind === "ladder" ? "base" : `corners.${at}`);
  const faults = corners.flatMap(({ lines, recipe }, at): Fault[] => [
    ...(recipe?.isPrivate
      ? [
          {
            path: `${pathOf(at)}.recipe`,
            says: `${recipe.name} is private, and the whole studio reads a trial. Show it to the studio first.`,
          },
        ]
      : []),
    ...lines.flatMap(({ pinned, name }, row) =>
      pinned ? [] : [{ path: `${pathOf(at)}.lines.${row}.material`, says: notOfTheShelf(name) }],
    ),
  ]);
  if (blend.kind === "ladder" && !blend.addition.pinned)
    faults.push({ path: "addition", says: notOfTheShelf(blend.addition.name) });
  return faults;
}

const notOfTheShelf = (name: string): string =>
  `A trial is kept, so its powders are of the shelf. Put “${name}” on the shelf first.`;

/** What was asked for; where no cone was given, that of the first recipe it starts from. */
function questionOf(body: BlendBody, corners: readonly FoundCorner[]): Record<string, unknown> {
  const cone = body.cone ?? corners.find(({ recipe }) => recipe)?.recipe?.cones.low ?? null;
  const asked = {
    kind: body.kind,
    steps: body.steps,
    cone,
    use: body.use ?? null,
    corners: corners.map(({ lines, recipe }) => ({
      says: recipe ? `${recipe.name}, revision ${recipe.number}` : "lines as they were typed",
      ...(recipe && { recipe: `${recipe.slug}@${recipe.number}` }),
      lines: lines.map(({ material, part, amount }) => ({
        material,
        part,
        amount: amount.toFixed(),
      })),
    })),
  };
  if (body.kind === "ladder") {
    const { addition, from, to, spacing } = body;
    return { ...asked, addition, from: from.toFixed(), to: to.toFixed(), spacing };
  }
  return body.gravities && body.measure === "slurry volume"
    ? { ...asked, gravities: body.gravities.map(String) }
    : asked;
}

const shownAsked = z.object({ show: z.string().max(40).optional() });

trials.get(
  "/:id",
  described({
    says: "A trial: its points with chemistry, screen, and what came of each",
    query: shownAsked,
  }),
  memberRequired,
  async (c) => {
    const trial = await readTrial(c, c.req.param("id"));
    if (!trial) return notFound(c);
    return answer(c, {
      json: () => trialJson(trial),
      page: { title: trial.name, here: "kiln" },
      view: () => TrialPage({ trial, show: c.req.query("show") }),
    });
  },
);
