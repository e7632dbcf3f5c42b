import { Decimal } from "decimal.js";
import { sql } from "drizzle-orm";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { analysisOfFormula } from "../../src/chem/worked-out.ts";
import { addAnalysis, digestOfAnalysis, findAnalyses } from "../../src/db/analyses.ts";
import { putInUse } from "../../src/db/analyses-in-use.ts";
import { discontinue } from "../../src/db/discontinuations.ts";
import { findChainFault, listEvents } from "../../src/db/events.ts";
import { addMaterial } from "../../src/db/material-adding.ts";
import { findMaterialsBySlug, listMaterialNames } from "../../src/db/materials.ts";
import { listShelf } from "../../src/db/shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";

describe("the shelf's records", () => {
  let studio: TestStudio;
  beforeAll(async () => {
    studio = await openTestStudio();
  });
  afterAll(() => studio.close());

  const act = () => ({ by: studio.ids.manager, at: new Date("2026-02-01T10:00:00Z") });
  const fromFormula = (formula: string) => {
    const workedOut = analysisOfFormula(formula);
    if (workedOut.kind !== "analysis") throw new Error(formula);
    return { source: "A book", measuredOn: null, formula, analysis: workedOut.analysis };
  };
  const shelve = async (name: string, formula?: string) => {
    const given = formula ? fromFormula(formula) : null;
    const rest = { region: "", kind: "powder", about: "", hazards: ["dust"], given };
    const added = await addMaterial(studio.db, { name, ...rest, ...act() });
    if (added.kind !== "added") throw new Error(`${name} is taken`);
    return added;
  };

  it("finds materials with what is in use and whether they are sold, in one go", async () => {
    const [lime, stain] = [await shelve("Whiting", "CaCO3"), await shelve("Teal stain")];
    await discontinue(studio.db, { materialId: stain.id, since: "2026-01-31", why: "x", ...act() });
    const found = await findMaterialsBySlug(studio.db, ["whiting", "teal-stain", "none", "\u0000"]);
    expect([...found.keys()].sort()).toEqual(["teal-stain", "whiting"]);
    expect(found.get("whiting")).toMatchObject({
      stillSold: true,
      hazards: ["dust"],
      inUse: { id: lime.analysis?.id, digest: lime.analysis?.digest, source: "A book" },
    });
    expect(found.get("teal-stain")).toMatchObject({ stillSold: false, inUse: null });
    expect(await findMaterialsBySlug(studio.db, [])).toEqual(new Map());
  });

  it("keeps a formula's figures at six decimals that add up to 100 with the loss", async () => {
    const { analysis } = await shelve("Dolomite", "CaMg(CO3)2");
    const kept = (await findAnalyses(studio.db, [analysis?.id ?? ""])).get(analysis?.id ?? "");
    const figures = [...Object.values(kept?.analysis.oxides ?? {}), kept?.analysis.lossOnIgnition];
    const total = Decimal.sum(...figures.map((figure) => figure?.percent ?? 0));
    expect(total.toFixed()).toBe("100");
    expect(kept && digestOfAnalysis(kept.analysis, "CaMg(CO3)2")).toBe(analysis?.digest);
  });

  it("tells again what a formula gives off in the kiln", async () => {
    const { slug } = await shelve("Fluorspar", "CaF2");
    const found = (await findMaterialsBySlug(studio.db, [slug])).get(slug);
    expect(found?.inUse?.analysis.givesOff).toEqual(["F"]);
  });

  it("digests what is said and not how it is written", () => {
    const of = (percent: string, plusMinus?: string) =>
      digestOfAnalysis(
        {
          basis: "asReceived",
          oxides: {
            SiO2: {
              percent: new Decimal(percent),
              plusMinus: plusMinus ? new Decimal(plusMinus) : undefined,
            },
          },
        },
        null,
      );
    expect(of("55.10")).toBe(of("55.1"));
    expect(of("55.1", "0.80")).toBe(of("55.1", ".8"));
    const different = [of("55.1"), of("55.11"), of("55.1", "0.8"), of("55.1", "0")];
    expect(new Set(different).size).toBe(4);
  });

  it("counts the newest word on what is in use, and refuses another material's analysis", async () => {
    const [mine, other] = [await shelve("Kaolin", "Al2Si2O5(OH)4"), await shelve("Other kaolin")];
    const given = fromFormula("Al2O3.2SiO2.2H2O");
    const params = { materialId: mine.id, given, inUse: true, ...act() };
    const second = await addAnalysis(studio.db, params);
    const inUse = async () =>
      (await findMaterialsBySlug(studio.db, ["kaolin"])).get("kaolin")?.inUse;
    expect((await inUse())?.id).toBe(second.id);
    const back = { materialId: mine.id, analysisId: mine.analysis?.id ?? "", why: "x", ...act() };
    expect(await putInUse(studio.db, back)).toEqual({ kind: "put-in-use" });
    expect(await putInUse(studio.db, back)).toEqual({ kind: "in-use-already" });
    expect((await inUse())?.id).toBe(mine.analysis?.id);
    const wrong = { ...back, materialId: other.id };
    expect(await putInUse(studio.db, wrong)).toEqual({ kind: "no-analysis" });
  });

  it("lists the shelf a page at a time, each material once and in order", async () => {
    for (const name of ["Zz b", "zz A", "Zz-c", "Zż d", "Zz e"]) await shelve(name);
    const names: string[] = [];
    let after: string | undefined;
    do {
      const page = await listShelf(studio.db, { q: "ZZ", after, limit: 2 });
      names.push(...page.materials.map(({ name }) => name));
      after = page.next ?? undefined;
    } while (after !== undefined);
    expect(names).toEqual(["zz A", "Zz b", "Zz-c", "Zż d", "Zz e"]);
    const inOrder = (await listMaterialNames(studio.db)).filter((name) => /^z/i.test(name));
    expect(inOrder).toEqual(names);
  });

  it("has no wildcard in what is looked for", async () => {
    await shelve("Ash 100% wood");
    const found = async (q: string) =>
      (await listShelf(studio.db, { q, limit: 9 })).materials.map(({ name }) => name);
    expect(await found("0%")).toEqual(["Ash 100% wood"]);
    expect(await found("1%w")).toEqual([]);
    expect(await found("\\")).toEqual([]);
  });

  it("tells every change in the chain of events, with ids and no names", async () => {
    const { id } = await shelve("Talc", "Mg3Si4O10(OH)2");
    await discontinue(studio.db, { materialId: id, since: "2026-02-01", why: "Pit", ...act() });
    const events = await listEvents(studio.db, { subjectId: id, limit: 10 });
    expect(events.map(({ kind }) => kind)).toEqual(["material added", "no longer sold"]);
    expect(JSON.stringify(events.map(({ detail }) => detail))).not.toMatch(/Talc|Pit/);
    expect(await findChainFault(studio.db)).toBeUndefined();
  });

  it.each(["analyses", "analysis_oxides", "analyses_in_use", "discontinuations"])(
    "keeps the rows of %s for good",
    async (table) => {
      const column = { analysis_oxides: "oxide", analyses: "source" }[table] ?? "why";
      const count = () => studio.db.execute(sql.raw(`select count(*)::int as n from ${table}`));
      const before = await count();
      for (const statement of [
        `update ${table} set ${column} = ${column}`,
        `delete from ${table}`,
        `truncate ${table} cascade`,
      ]) {
        const refused = await studio.db.execute(sql.raw(statement)).then(
          () => "taken",
          (error) => String(error.cause ?? error),
        );
        expect(refused).toContain("append-only");
      }
      expect(JSON.stringify(await count())).toBe(JSON.stringify(before));
    },
  );
});
