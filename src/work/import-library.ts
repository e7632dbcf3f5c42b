import { exported } from "../db/export-nouns.ts";
import { rowsName } from "./export-format.ts";
import { type OpenExport, openExport } from "./export-reading.ts";
import { cutAt, type Quotation, quotesOf } from "./import-library-quotes.ts";
import { by, type Placed, type Rows, readNouns, words } from "./import-library-rows.ts";
import { FileFault } from "./zip-reading.ts";

/** An entry in the shape of our JSON, yet to be checked as a stranger's. */
export type LibraryEntry = { place: string; entry: unknown };

export type LibraryRead = {
  materials: LibraryEntry[];
  recipes: (LibraryEntry & { quotes: Quotation[] })[];
  leftBehind: string[];
};

const mostRows = 100_000;
const mostBytes = 256 * 1024 * 1024;
const longestAbout = 7300;

/**
 * What an export of another studio has to give: each material, and the newest revision of each recipe
 * that was not private there and not taken back. What was said and found there comes as words.
 *
 * @throws {FileFault} with a sentence that names the place, also where there is too much to take in.
 */
export async function readLibrary(bytes: Uint8Array): Promise<LibraryRead> {
  const open = await openExport({ bytes });
  try {
    return libraryOf(await rowsOf(open));
  } finally {
    open.close();
  }
}

async function rowsOf(open: OpenExport): Promise<Rows> {
  const { counts, entries } = open.manifest;
  const sizes = new Map(entries.map((entry) => [entry.name, entry.bytes]));
  const rows = Object.fromEntries(readNouns.map((name) => [name, [] as Placed[]])) as Rows;
  let total = 0;
  for (const noun of exported) {
    const name = readNouns.find((each) => each === noun.name);
    if (name === undefined || !open.nouns.includes(noun)) continue;
    total += sizes.get(rowsName(noun)) ?? 0;
    if ((counts[name] ?? 0) > mostRows || total > mostBytes)
      throw new FileFault(
        `${rowsName(noun)} holds more than an import takes in: ${mostRows} rows a noun, 256 MB in all. An export of this size is for restoring.`,
      );
    for await (const { row, line } of open.rows(noun))
      rows[name].push({ ...row, place: `${rowsName(noun)}, line ${line}` });
  }
  return rows;
}

function libraryOf(rows: Rows): LibraryRead {
  const studio = words(rows.studios[0]?.name) || "another studio";
  const materialOf = new Map(rows.materials.map((row) => [words(row.id), row]));
  const people = new Map(rows.people.map((row) => [words(row.id), words(row.name)]));
  const takenBack = new Map(rows.withdrawals.map((row) => [words(row.recipeId), row.withdrawn]));
  const here = rows.recipes.filter(
    ({ id, shownTo }) => shownTo !== "private" && takenBack.get(words(id)) !== true,
  );
  const heads = new Map(
    rows.revisions.map((row) => [`${words(row.recipeId)} ${String(row.number)}`, row]),
  );
  const linesOf = by(rows.revisionLines, "revisionId");
  const quoted = quotesOf(rows, { studio, people });
  const recipes = here.flatMap((recipe) => {
    const id = words(recipe.id);
    const head = heads.get(`${id} ${String(recipe.head)}`);
    if (!head) return [];
    const about = words(head.about);
    const [begins, rest] = cutAt(about, longestAbout);
    const lines = (linesOf.get(words(head.id)) ?? [])
      .sort((one, other) => Number(one.position) - Number(other.position))
      .map(({ part, materialId, amount }) => ({
        part,
        material: words(materialOf.get(words(materialId))?.name),
        amount,
      }));
    const entry = {
      name: recipe.name,
      maker: people.get(words(recipe.ownerId)),
      source: studio,
      revision: {
        lines,
        use: head.use,
        cones: { low: head.coneLow, high: head.coneHigh },
        atmosphere: head.atmosphere,
        surface: head.surface,
        about: begins,
      },
    };
    const further =
      rest === "" ? [] : [{ place: head.place, text: `Quoted from ${studio}: … ${rest}` }];
    return [{ place: recipe.place, entry, quotes: [...further, ...quoted(id, head)] }];
  });
  return {
    materials: materialsOf(rows),
    recipes,
    leftBehind: behind(rows, rows.recipes.length - here.length),
  };
}

function materialsOf(rows: Rows): LibraryEntry[] {
  const namesOf = by(rows.materialNames, "materialId");
  const analysesOf = by(rows.analyses, "materialId");
  const oxidesOf = by(rows.analysisOxides, "analysisId");
  const inUse = new Map(
    rows.analysesInUse.map(({ materialId, analysisId }) => [words(materialId), analysisId]),
  );
  return rows.materials.map(({ place, ...row }) => {
    const id = words(row.id);
    const used = inUse.get(id);
    const analyses = [...(analysesOf.get(id) ?? [])].sort(
      (one, other) => Number(other.id === used) - Number(one.id === used),
    );
    const entry = {
      name: row.name,
      region: row.region,
      kind: row.kind,
      about: row.about,
      hazards: row.hazards,
      names: (namesOf.get(id) ?? []).map(({ name, region, caution }) => ({
        name,
        region,
        caution,
      })),
      analyses: analyses.map((analysis) => analysisOf(analysis, oxidesOf)),
    };
    return { place, entry };
  });
}

function analysisOf(row: Placed, oxidesOf: ReadonlyMap<string, Placed[]>): unknown {
  const { source, measuredOn, formula, basis, ideal, lossPercent, lossPlusMinus } = row;
  const start = { source, ...(measuredOn !== null && { measuredOn }) };
  if (formula !== null) return { ...start, formula, ...(ideal === true && { ideal }) };
  const figure = (percent: unknown, plusMinus: unknown) => ({
    percent,
    ...(plusMinus !== null && { plusMinus }),
  });
  const oxides = Object.fromEntries(
    (oxidesOf.get(words(row.id)) ?? []).map(({ oxide, percent, plusMinus }) => [
      words(oxide),
      figure(percent, plusMinus),
    ]),
  );
  return {
    ...start,
    basis,
    oxides,
    ...(lossPercent !== null && { lossOnIgnition: figure(lossPercent, lossPlusMinus) }),
  };
}

/** What such a file has and an import never brings, so that nobody looks for it. */
function behind({ tiles }: Rows, unseen: number): string[] {
  return [
    "People, firings, buckets, stock, trials, families and pairs stay where they are, and so do approvals: a glaze is judged here by what is tested here.",
    "Reviews, tests and notes come as quoted notes. They count for nothing here, and object to nothing.",
    ...(tiles.length > 0
      ? ["Tiles come as quoted notes too, without their pictures: they were not fired here."]
      : []),
    "Of each recipe its newest revision comes; each line is pinned to the analysis that is in use here.",
    ...(unseen > 0
      ? [`Left out, since they were private there or taken back: ${unseen} of the recipes.`]
      : []),
  ];
}
