import { Decimal } from "decimal.js";
import { basesInLitre, faultsOfGravity } from "../chem/blend-slurries.ts";
import { type Blend, faultsOfBlend } from "../chem/blends.ts";
import { faultsOfRequest, mostLines } from "../chem/chemistry.ts";
import { withDryGravities } from "../db/material-gravities.ts";
import type { BlendBody } from "../wire/blend-body.ts";
import type { Ctx } from "../wire/context.ts";
import type { Fault } from "../wire/problems.tsx";
import { readSource, type SourceRecipe } from "./lines-source.ts";
import { resolveLines, type SentLine, shelvedId } from "./sent-lines.ts";

/** One corner as it was found, or the base of a ladder. */
export type FoundCorner = { lines: SentLine[]; recipe: SourceRecipe | null };

export type ReadBlend =
  | { kind: "read"; blend: Blend<SentLine>; corners: FoundCorner[] }
  | { kind: "faulty"; status: 404 | 422; faults: Fault[] };

/** A blend as it was sent, its corners found and its figures looked over, or each fault's place. */
export async function readBlend(c: Ctx, body: BlendBody): Promise<ReadBlend> {
  const found = await findCorners(c, body);
  if (found.kind === "faulty") return found;
  const { corners } = found;
  const read =
    body.kind === "ladder"
      ? await readLadder(c, body, corners)
      : await readCorners(c, body, corners);
  if ("faults" in read) return refused(read.faults);
  const faults = faultsOfBlend(read);
  return faults.length > 0 ? refused(faults) : { kind: "read", blend: read, corners };
}

const refused = (faults: Fault[]): ReadBlend => ({ kind: "faulty", status: 422, faults });

async function findCorners(c: Ctx, body: BlendBody) {
  const sources =
    body.kind === "ladder"
      ? [{ source: body.base, prefix: "base." }]
      : body.corners.map((source, at) => ({ source, prefix: `corners.${at}.` }));
  const corners: FoundCorner[] = [];
  const faults: Fault[] = [];
  let status: 404 | 422 = 422;
  for (const { source, prefix } of sources) {
    const read = await readSource(c, source, prefix);
    if (read.kind === "faulty") {
      faults.push(...read.faults);
      if (read.status === 404) status = 404;
      continue;
    }
    faults.push(...faultsOfLines(read.lines, prefix, source.text !== undefined));
    corners.push(read);
  }
  if (faults.length > 0) return { kind: "faulty" as const, status, faults };
  return { kind: "found" as const, corners };
}

/** @param isTyped that the lines stand in one box of a form, which then is the place of every fault. */
function faultsOfLines(lines: SentLine[], prefix: string, isTyped: boolean): Fault[] {
  return faultsOfRequest({ lines }).map(({ path, says }) => ({
    path: isTyped ? `${prefix}text` : `${prefix}${path}`,
    says: isTyped && path !== "lines" ? `${nameAt(lines, path)}: ${says}` : says,
  }));
}

const nameAt = (lines: SentLine[], path: string): string =>
  lines[Number(path.split(".")[1])]?.name ?? "A line";

type LadderBody = Extract<BlendBody, { kind: "ladder" }>;

async function readLadder(
  c: Ctx,
  { addition, from, to, steps, spacing, measure }: LadderBody,
  [base]: FoundCorner[],
): Promise<Blend<SentLine> | { faults: Fault[] }> {
  const sent = { material: addition, part: "addition" as const, amount: new Decimal(0) };
  const climbing = await resolveLines(c.var.db, [sent]);
  const faults = climbing.faults.map(({ says }) => ({ path: "addition", says }));
  if (measure === "slurry volume") {
    const says =
      "A ladder is weighed: its addition goes in dry. Volumes are for blends of slurries.";
    faults.push({ path: "measure", says });
  }
  const [line] = climbing.lines;
  if (faults.length > 0 || !line || !base) return { faults };
  const wrong = faultsOfRequest({ lines: [...base.lines, line] });
  if (wrong.length > 0) return { faults: wrong.map(({ says }) => ({ path: "addition", says })) };
  return { kind: "ladder", base: base.lines, addition: line, from, to, steps, spacing };
}

type CornersBody = Exclude<BlendBody, { kind: "ladder" }>;

async function readCorners(
  c: Ctx,
  body: CornersBody,
  found: FoundCorner[],
): Promise<Blend<SentLine> | { faults: Fault[] }> {
  const corners = found.map(({ lines }) => lines);
  const different = new Set(corners.flat().map(({ part, key }) => `${part} ${key}`));
  if (different.size > mostLines) {
    const says = `The corners have ${different.size} different lines together; at most ${mostLines} are taken.`;
    return { faults: [{ path: "corners", says }] };
  }
  const weighed = await weightsOf(c, body, corners);
  if ("faults" in weighed) return weighed;
  return body.kind === "grid"
    ? { kind: "grid", corners, steps: body.steps, ...weighed }
    : { kind: body.kind, corners, steps: body.steps, ...weighed };
}

async function weightsOf(
  c: Ctx,
  { measure, gravities = [] }: CornersBody,
  corners: SentLine[][],
): Promise<{ weights?: Decimal[] } | { faults: Fault[] }> {
  if (measure === "dry weight") {
    if (gravities.length === 0) return {};
    const says = "Gravities are for a blend by volume of slurries; this one is of dry weight.";
    return { faults: [{ path: "gravities", says }] };
  }
  const given = corners.map((_, at) => gravities[at]);
  const faults = given.flatMap((gravity, at): Fault[] =>
    gravity instanceof Decimal
      ? faultsOfGravity(gravity, `gravities.${at}`)
      : [{ path: `gravities.${at}`, says: "The gravity of this corner's slurry, as in 1.45." }],
  );
  if (faults.length > 0) return { faults };
  const weights: Decimal[] = [];
  for (const [at, lines] of corners.entries())
    weights.push(
      basesInLitre(await withDryGravities(c.var.db, lines, shelvedId), given[at] as Decimal),
    );
  return { weights };
}
