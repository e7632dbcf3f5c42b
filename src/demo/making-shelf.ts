import { Decimal } from "decimal.js";
import type { Analysis, Figure } from "../chem/analysis.ts";
import { analysisOfFormula } from "../chem/worked-out.ts";
import { addAnalysis, type GivenAnalysis } from "../db/analyses.ts";
import { discontinue } from "../db/discontinuations.ts";
import { addMaterial } from "../db/material-adding.ts";
import { addName } from "../db/material-names.ts";
import { type Entry, entry, known } from "./diary.ts";
import { type DemoName, namesElsewhere } from "./names-elsewhere.ts";
import { type DemoAnalysis, type DemoFigure, type DemoMaterial, demoShelf } from "./shelf.ts";

/** The shelf is put up in one morning, its names the week after; the rest follows as it happens. */
export const shelfEntries = (): Entry[] => [
  ...demoShelf.flatMap((material, place) => [
    entry(minutesAfter("2026-01-12T09:00:00Z", place * 5), putUp(material)),
    ...later(material),
  ]),
  ...namesElsewhere.map((name, place) =>
    entry(minutesAfter("2026-01-14T10:00:00Z", place * 3), addTheName(name)),
  ),
];

const minutesAfter = (at: string, minutes: number): string =>
  new Date(Date.parse(at) + minutes * 60_000).toISOString();

const putUp =
  ({ name, region = "", kind, about, hazards, analysis }: DemoMaterial): Entry["happens"] =>
  async ({ db, ids, materialIds, materialSlugs }, at) => {
    const given = analysis && givenAnalysis(analysis);
    const by = known(ids, "ines");
    const added = await addMaterial(db, { name, region, kind, about, hazards, given, by, at });
    if (added.kind !== "added") throw new Error(`${name} stands on the shelf twice`);
    materialIds.set(name, added.id);
    materialSlugs.set(name, added.slug);
  };

function later({ name, later, noLongerSold }: DemoMaterial): Entry[] {
  const entries: Entry[] = [];
  if (later) {
    const given = givenAnalysis(later.analysis);
    entries.push(
      entry(later.at, async ({ db, ids, materialIds, shelf }, at) => {
        const [materialId, by] = [known(materialIds, name), known(ids, later.by)];
        const inUse = later.inUse ?? false;
        await addAnalysis(db, { materialId, given, inUse, by, at });
        // What is published after this pins what is in use by then.
        if (inUse) shelf.clear();
      }),
    );
  }
  if (noLongerSold) {
    const { since, why } = noLongerSold;
    entries.push(
      entry(noLongerSold.at, async ({ db, ids, materialIds }, at) => {
        const [materialId, by] = [known(materialIds, name), known(ids, noLongerSold.by)];
        await discontinue(db, { materialId, since, why, by, at });
      }),
    );
  }
  return entries;
}

const addTheName =
  ({ material, name, region, caution, by }: DemoName): Entry["happens"] =>
  async ({ db, ids, materialIds }, at) => {
    const act = { by: known(ids, by), at };
    const materialId = known(materialIds, material);
    const added = await addName(db, { materialId, name, region, caution, ...act });
    if (added.kind !== "added") throw new Error(`${material} is called ${name} there already`);
  };

/** An analysis of the data as the shelf takes it, with where it came from. */
export function givenAnalysis(analysis: DemoAnalysis): GivenAnalysis {
  if ("formula" in analysis) {
    const { formula } = analysis;
    const workedOut = analysisOfFormula(formula);
    if (workedOut.kind !== "analysis") throw new Error(`${formula}: ${workedOut.says}`);
    const source = "Worked out from its formula";
    return { source, measuredOn: null, formula, analysis: workedOut.analysis };
  }
  const { measuredOn, oxides, loss, basis = "asReceived" } = analysis;
  const figures = Object.entries(oxides).map(([oxide, given]) => [oxide, figure(given)] as const);
  const measured: Analysis = {
    basis,
    oxides: Object.fromEntries(figures),
    lossOnIgnition: figure(loss),
  };
  return { source: "demo analysis", measuredOn, formula: null, analysis: measured };
}

function figure(given: DemoFigure): Figure {
  if (typeof given === "string") return { percent: new Decimal(given) };
  const [percent, plusMinus] = given;
  return { percent: new Decimal(percent), plusMinus: new Decimal(plusMinus) };
}
