import { trialMark } from "../chem/tile-marks.ts";
import type { TrialPhoto } from "../db/trial-photos.ts";
import type { TrialResult } from "../db/trial-results.ts";
import type { ListedTrial } from "../db/trials.ts";
import type { ReadTrial } from "./trial-reading.ts";

export const listedJson = ({ at, ...trial }: ListedTrial & { points: number }) => ({
  ...trial,
  at: at.toISOString(),
});

export const trialPhotoJson = ({ id, sha256, alt, width, height, removed }: TrialPhoto) => ({
  id,
  sha256,
  alt,
  width,
  height,
  removed,
  href: `/photos/${sha256}/full`,
});

export const resultJson = ({ at, n, photos, withdrawn, ...result }: TrialResult) => ({
  ...result,
  point: n,
  at: at.toISOString(),
  withdrawn: withdrawn && { ...withdrawn, at: withdrawn.at.toISOString() },
  photos: photos.map(trialPhotoJson),
});

/** One point, with its tile's mark and all that came of it. */
export const pointJson = (trial: ReadTrial, point: ReadTrial["points"][number]) => ({
  n: point.n,
  mark: trialMark(trial, point.n),
  at: point.at,
  lines: point.lines.map(({ part, material, analysis, amount }) => ({
    material: material.slug,
    part,
    amount: amount.toFixed(),
    analysis: analysis?.id ?? null,
  })),
  chemistry: point.chemistry,
  results: point.results.map(resultJson),
  recipes: point.recipes.map(({ slug, name }) => ({ slug, name })),
});

export const trialJson = (trial: ReadTrial) => ({
  id: trial.id,
  code: trial.code,
  name: trial.name,
  kind: trial.kind,
  measure: trial.measure,
  about: trial.about,
  cone: trial.cone,
  question: trial.question,
  by: trial.by,
  at: trial.at.toISOString(),
  points: trial.points.map((point) => pointJson(trial, point)),
});
