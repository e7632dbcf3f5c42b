import type { Analysis } from "../chem/analysis.ts";
import { faultsOfAnalysis } from "../chem/analysis.ts";
import { type ChemistryLine, faultsOfRequest } from "../chem/chemistry.ts";
import type { Oxide } from "../chem/oxides.ts";
import type { BaseConditions } from "../chem/restate-conditions.ts";
import { countedOxides, fluxMoles, type Moles, restatable, unityOfMix } from "../chem/restating.ts";
import type { Db } from "../db/client.ts";
import { doubtOf, readLines } from "../db/line-reading.ts";
import type { MaterialOnShelf } from "../db/materials.ts";
import { findRecipe } from "../db/recipes.ts";
import { type FoundRevision, findRevision } from "../db/revisions.ts";
import { listShelf } from "../db/shelf.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { mostOnShelf, type RestateBody } from "../wire/restate-body.ts";
import type { Bound } from "../work/restate-model.ts";
import { readSource, type SourceRecipe } from "./lines-source.ts";
import type { SentLine } from "./sent-lines.ts";

/** What is to be restated: the base's unity formula, and the lines it came from where there are any. */
export type Target = {
  wanted: Moles;
  counted: Oxide[];
  base: SentLine[];
  additions: SentLine[];
  recipe: SourceRecipe | null;
};

export type TargetRead =
  | { kind: "read"; target: Target }
  | { kind: "faulty"; status?: 404 | 422; faults: Fault[] };

export async function readTarget(
  c: Ctx,
  { unity, ...source }: RestateBody["target"],
): Promise<TargetRead> {
  if (unity) return ofUnity(unity);
  const today = await readSource(c, source, "target.");
  if (today.kind === "faulty") return today;
  const lines = today.recipe ? await asPublished(c, today.recipe) : today.lines;
  return targetOfLines(lines, today.recipe);
}

/** What lines are as a target: the unity formula of their base, with each line where it came from. */
export function targetOfLines(lines: readonly SentLine[], recipe: SourceRecipe | null): TargetRead {
  const faults = faultsOfRequest({ lines }).map(({ path, says }) => ({
    path: `target.${path}`,
    says,
  }));
  if (faults.length > 0) return { kind: "faulty", faults };
  const base = lines.filter(({ part, amount }) => part === "base" && amount.gt(0));
  const wanted = unityOfMix(
    base.flatMap((line) =>
      line.analysis
        ? [{ ...restatable({ ...line, analysis: line.analysis }), amount: line.amount.toNumber() }]
        : [],
    ),
  );
  if (!wanted) return { kind: "faulty", faults: [noFlux("target.lines")] };
  const additions = lines.filter(({ part, amount }) => part === "addition" && amount.gt(0));
  const counted = countedOxides("lines", wanted);
  return { kind: "read", target: { wanted, counted, base, additions, recipe } };
}

/**
 * The lines of a recipe by the analyses that it was published with: they say which glaze it is, and
 * its tiles were made of it, whatever powders are called the same today.
 */
async function asPublished(c: Ctx, { slug, number }: SourceRecipe): Promise<SentLine[]> {
  const recipe = await findRecipe(c.var.db, { slug, reader: c.var.viewer });
  const revision = recipe && (await findRevision(c.var.db, { recipeId: recipe.id, number }));
  return revision ? publishedLines(revision) : [];
}

/** A revision's lines by the analyses that it was published with. */
export const publishedLines = ({ lines }: FoundRevision): SentLine[] =>
  lines.map(({ part, material, analysis, amount }) => ({
    ...{ key: analysis?.id ?? material.id, name: material.name, material: material.slug },
    ...{ part, amount, analysis: analysis?.analysis ?? null },
    analysedOn: analysis?.measuredOn ?? undefined,
    pinned: { materialId: material.id, analysisId: analysis?.id ?? null },
  }));

function ofUnity(unity: NonNullable<RestateBody["target"]["unity"]>): TargetRead {
  const wanted: Moles = Object.fromEntries(
    Object.entries(unity).flatMap(([oxide, moles]) => (moles ? [[oxide, moles.toNumber()]] : [])),
  );
  if (fluxMoles(wanted) === 0) return { kind: "faulty", faults: [noFlux("target.unity")] };
  const counted = countedOxides("unity", wanted);
  return { kind: "read", target: { wanted, counted, base: [], additions: [], recipe: null } };
}

const noFlux = (path: string): Fault => ({
  path,
  says: "There is no flux in this, and a unity formula is counted by its fluxes, which add up to 1.",
});

/** A material of the request's shelf; `key` is what the request calls it. */
export type OnShelf = {
  key: string;
  name: string;
  analysis: Analysis;
  /** What the chemistry knows its analysis by. */
  analysisKey: string;
  /** On the studio's shelf; undefined for one that was sent along. */
  materialId: string | undefined;
  /** Which analysis counts; undefined for one that was sent along. */
  used: UsedAnalysis | undefined;
};

/** Not of this lot: the powder's newest stands in for it, with its ± doubled. */
export type UsedAnalysis = {
  source: string;
  measuredOn: string | null;
  is: "in use" | "of the lot" | "not this lot";
};

export type ShelfRead = {
  shelf: OnShelf[];
  /** Named, and not used: what has no analysis cannot be part of a base. */
  leftOut: { material: string; because: string }[];
  faults: Fault[];
};

type ShelfBody = Pick<RestateBody, "shelf" | "allSold" | "bounds" | "required" | "forbidden">;

/** The shelf of a request, each material once; what is forbidden is not on it. */
export async function readShelf(db: Db, body: ShelfBody): Promise<ShelfRead> {
  const slugs = body.shelf.flatMap((each) =>
    typeof each === "string" ? [{ material: each }] : [],
  );
  const readings = new Map((await readLines(db, slugs)).map((each) => [each.material, each]));
  const faults: Fault[] = [];
  const found = new Map<string, OnShelf>();
  const leftOut: ShelfRead["leftOut"] = [];
  const take = ({
    analysis,
    ...each
  }: Omit<OnShelf, "analysis"> & { analysis: Analysis | null }) => {
    const { key, name } = each;
    if (body.forbidden.includes(key)) return;
    if (analysis) found.set(key, { ...each, analysis });
    else
      leftOut.push({
        material: key,
        because: `${name} has no analysis: it can be added, no more.`,
      });
  };
  const takeOwn = ({ id, slug, name, inUse }: MaterialOnShelf) =>
    take({
      ...{ key: slug, name, materialId: id },
      ...{ analysis: inUse?.analysis ?? null, analysisKey: inUse?.id ?? id },
      used: inUse
        ? { source: inUse.source, measuredOn: inUse.measuredOn, is: "in use" }
        : undefined,
    });
  body.shelf.forEach((each, at) => {
    if (typeof each !== "string") {
      const { name, analysis } = each;
      const path = `shelf.${at}`;
      if (analysis)
        faults.push(
          ...faultsOfAnalysis(analysis).map((f) => ({ ...f, path: `${path}.${f.path}` })),
        );
      if (found.has(name))
        faults.push({ path: `${path}.name`, says: `Two materials here are called “${name}”.` });
      take({
        ...{ key: name, name, materialId: undefined, used: undefined },
        ...{ analysis, analysisKey: JSON.stringify([name, analysis]) },
      });
      return;
    }
    const reading = readings.get(each);
    if (reading?.match.kind === "sure") takeOwn(reading.match.material);
    else
      faults.push({
        path: `shelf.${at}`,
        says: (reading && doubtOf(reading)) ?? "This is needed.",
      });
  });
  if (body.allSold) {
    const { materials } = await listShelf(db, { limit: mostOnShelf });
    for (const each of materials)
      if (each.stillSold && each.inUse && !found.has(each.slug)) takeOwn(each);
  }
  return {
    shelf: [...found.values()],
    leftOut,
    faults: [...faults, ...strangers(body, [...found.keys()], leftOut)],
  };
}

/** Conditions on what is not there: nobody could tell what they did. */
export function strangers(
  { bounds, required, forbidden }: ShelfBody,
  found: readonly string[],
  leftOut: ShelfRead["leftOut"],
): Fault[] {
  const out = (key: string) => leftOut.find(({ material }) => material === key)?.because;
  const says = (key: string) => out(key) ?? `“${key}” is not on the shelf of this request.`;
  return [
    ...Object.entries(bounds).flatMap(([key, { least }]) => {
      const known = out(key) !== undefined || forbidden.includes(key);
      return found.includes(key) || (known && !least?.gt(0))
        ? []
        : [{ path: `bounds.${key}`, says: says(key) }];
    }),
    ...required.flatMap((key, at) =>
      found.includes(key) ? [] : [{ path: `required.${at}`, says: says(key) }],
    ),
  ];
}

/** What counts as using a material at all, percent of the base. */
const leastUsed = 0.1;

/** The bounds as numbers; what is required is at least a tenth of a percent of the base. */
export function boundsOf({ bounds, required }: RestateBody): Record<string, Bound> {
  const all: Record<string, Bound> = {};
  for (const [key, { least, most }] of Object.entries(bounds))
    all[key] = { least: least?.toNumber(), most: most?.toNumber() };
  for (const key of required) all[key] = { ...all[key], least: all[key]?.least || leastUsed };
  return all;
}

/** What is asked of the base as a whole, as numbers. */
export const conditionsIn = ({ loss, expansion, cost, prefer }: RestateBody): BaseConditions => ({
  mostLoss: loss?.most.toNumber(),
  expansion: expansion && {
    model: expansion.model,
    least: expansion.least?.toNumber(),
    most: expansion.most?.toNumber(),
  },
  mostCost: cost?.most?.toNumber(),
  prefer,
});

/** A restated base as lines that chemistry can be worked out from. */
export const baseLines = (
  base: readonly { key: string; amount: ChemistryLine["amount"] }[],
  shelf: readonly OnShelf[],
): ChemistryLine[] =>
  base.flatMap(({ key, amount }) => {
    const on = shelf.find((each) => each.key === key);
    const { name = key, analysis = null, analysisKey = key } = on ?? {};
    return [{ key: analysisKey, name, part: "base" as const, amount, analysis }];
  });
