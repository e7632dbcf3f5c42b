import { Decimal } from "decimal.js";
import { type Blend, type BlendLine, pointsOf } from "../chem/blends.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { addTrial } from "../db/trial-adding.ts";
import { addTrialPhoto } from "../db/trial-photos.ts";
import { addTrialResult } from "../db/trial-results.ts";
import { type Entry, entry, known, type Making } from "./diary.ts";
import { firingKey } from "./kiln.ts";
import { revisionOf } from "./making-library.ts";
import { type DemoTrial, demoTrials, trialClay } from "./trials.ts";

/** A trial is laid out before its firing, and what came of it put down once the kiln is cold. */
export const trialEntries = (): Entry[] =>
  demoTrials.flatMap((trial) => {
    let id = "";
    return [
      entry(trial.at, async (making, at) => {
        id = await layOut(making, trial, at);
      }),
      {
        ...entry(trial.seenAt, (making, at) => putDown(making, trial, id, at)),
        shows: trial.results.filter(({ look }) => look),
      },
    ];
  });

type Line = BlendLine & { materialId: string; analysisId: string | null; slug: string };

async function layOut(making: Making, trial: DemoTrial, at: Date): Promise<string> {
  const asked = trial.kind === "ladder" ? [trial.base] : trial.corners;
  const found: FoundRevision[] = [];
  for (const { glaze, number } of asked) found.push(await revisionOf(making, glaze, number));
  const blend = blendOf(making, trial, found.map(linesOf));
  const points = pointsOf(blend).map((point) => ({
    n: point.n,
    shares: point.at,
    lines: point.lines.map(({ part, amount, materialId, analysisId }) => ({
      ...{ part, amount, materialId, analysisId },
    })),
  }));
  const corners = found.map((revision, place) => ({
    says: `${asked[place]?.glaze}, revision ${revision.number}`,
    recipe: `${slugOf(asked[place]?.glaze ?? "")}@${revision.number}`,
    lines: linesOf(revision).map(({ slug, part, amount }) => ({
      ...{ material: slug, part, amount: amount.toFixed() },
    })),
  }));
  return addTrial(making.db, {
    name: trial.name,
    kind: trial.kind,
    measure: "dry weight",
    about: trial.about,
    question: { kind: trial.kind, steps: trial.steps, cone: trial.cone, use: null, corners },
    points,
    by: known(making.ids, trial.by),
    at,
  });
}

const slugOf = (glaze: string): string => glaze.toLowerCase().replaceAll(" ", "-");

const linesOf = ({ lines }: FoundRevision): Line[] =>
  lines.map(({ part, material, analysis, amount }) => ({
    key: analysis?.id ?? material.id,
    part,
    amount,
    materialId: material.id,
    analysisId: analysis?.id ?? null,
    slug: material.slug,
  }));

function blendOf(making: Making, trial: DemoTrial, corners: Line[][]): Blend<Line> {
  if (trial.kind === "triaxial") return { kind: "triaxial", corners, steps: trial.steps };
  const { id, slug, inUse } = known(making.shelf, trial.addition);
  const addition: Line = {
    key: inUse?.id ?? id,
    part: "addition",
    amount: new Decimal(0),
    materialId: id,
    analysisId: inUse?.id ?? null,
    slug,
  };
  const [from, to] = [new Decimal(trial.from), new Decimal(trial.to)];
  const { kind, steps, spacing } = trial;
  return { kind, base: corners[0] ?? [], addition, from, to, steps, spacing };
}

async function putDown(making: Making, trial: DemoTrial, trialId: string, at: Date): Promise<void> {
  const { db, prepared, ids, bodyIds, firingIds } = making;
  const by = known(ids, trial.by);
  for (const result of trial.results) {
    const { n, surface, defects = [], remark, look } = result;
    const resultId = await addTrialResult(db, {
      ...{ trialId, n, surface, defects, remark, cone: trial.cone },
      bodyId: known(bodyIds, trialClay),
      firingId: known(firingIds, firingKey("Gannet", trial.firedOn)),
      ...{ by, at },
    });
    if (!look) continue;
    const picture = await known(prepared.pictures(), result);
    const alt = `Point ${n} of ${trial.name}: ${surface}; drawn for the demo`;
    await addTrialPhoto(db, { trialId, n, resultId, picture, alt, by, at });
  }
}
