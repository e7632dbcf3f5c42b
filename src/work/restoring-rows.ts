import { randomBytes } from "node:crypto";
import type { Db } from "../db/client.ts";
import { sha256 } from "../db/digests.ts";
import type { ExportRow } from "../db/export-fields.ts";
import type { Noun } from "../db/export-nouns.ts";
import { masterWidth, pictureWidths } from "../db/pictures.ts";
import { batchOf, insertRows, refusalOf, setForkedFrom } from "../db/restoring.ts";
import { pictureName, reportName, rowsName } from "./export-format.ts";
import type { OpenExport, PlacedRow } from "./export-reading.ts";
import { noPassword } from "./passwords.ts";
import { remakePicture } from "./pictures.ts";
import { FileFault } from "./zip-reading.ts";

type Filling = (row: ExportRow) => Record<string, unknown>;

/** Of a token that nobody has: a link that was handed out opens nothing here. */
const noToken: Filling = () => ({ tokenHash: sha256(randomBytes(32)) });

/** What stands in the columns that an export leaves out. */
const fillings: Record<string, Filling> = {
  people: ({ removedAt }) => ({ passwordHash: removedAt === null ? noPassword() : null }),
  shareLinks: noToken,
  handouts: noToken,
};

/** Puts in every row of an export, in its order, with the files beside them. */
export async function takeInRows(tx: Db, file: OpenExport): Promise<void> {
  const forks: { recipeId: string; revisionId: string }[] = [];
  for (const noun of file.nouns) {
    switch (noun.name) {
      case "recipes":
        await takeInNoun(tx, noun, file.rows(noun), {
          changed: (row) => {
            const { id, forkedFrom } = row;
            if (typeof forkedFrom !== "string") return row;
            forks.push({ recipeId: String(id), revisionId: forkedFrom });
            return { ...row, forkedFrom: null };
          },
        });
        break;
      case "revisions":
        await takeInNoun(tx, noun, file.rows(noun));
        await placed(rowsName({ name: "recipes" }), () => setForkedFrom(tx, forks));
        break;
      case "notes":
        // A reply may have got an id before that of what it answers, on a machine whose clock was behind.
        await takeInNoun(tx, noun, file.rows(noun), { only: ({ replyTo }) => replyTo === null });
        await takeInNoun(tx, noun, file.rows(noun), { only: ({ replyTo }) => replyTo !== null });
        break;
      case "pictureBytes":
        await takeInPictures(tx, noun, file);
        break;
      case "testReports":
        await takeInReports(tx, noun, file);
        break;
      default:
        await takeInNoun(tx, noun, file.rows(noun));
    }
  }
}

type Taking = {
  only?: (row: ExportRow) => boolean;
  changed?: (row: ExportRow) => ExportRow;
};

async function takeInNoun(
  tx: Db,
  noun: Noun,
  rows: AsyncGenerator<PlacedRow>,
  { only = () => true, changed = (row) => row }: Taking = {},
): Promise<void> {
  let held: PlacedRow[] = [];
  const put = async () => {
    const [from, to] = [held[0]?.line, held.at(-1)?.line];
    const values = held.map(({ row }) => row);
    held = [];
    await placed(`${rowsName(noun)}, lines ${from} to ${to}`, () =>
      insertRows(tx, noun, values, noun.omits.length > 0 ? fillings[noun.name] : undefined),
    );
  };
  for await (const { row, line } of rows) {
    if (!only(row)) continue;
    held.push({ row: changed(row), line });
    if (held.length === batchOf(noun)) await put();
  }
  if (held.length > 0) await put();
}

/** Masters as they are, the narrower ones made of them again; what was removed has none of either. */
async function takeInPictures(tx: Db, noun: Noun, file: OpenExport): Promise<void> {
  for await (const { row, line } of file.rows(noun)) {
    const place = `${rowsName(noun)}, line ${line}`;
    const sizes =
      row.removedAt === null
        ? await sizesOf(file, pictureName(String(row.sha256)))
        : [masterWidth, ...pictureWidths].map((width) => ({ width, bytes: null }));
    await placed(place, async () => {
      for (const size of sizes) await insertRows(tx, noun, [row], () => size);
    });
  }
}

async function sizesOf(file: OpenExport, name: string) {
  const picture = await remakePicture(await file.file(name));
  if (!picture) throw new FileFault(`${name} is no whole picture.`);
  return [{ width: masterWidth, bytes: picture.bytes }, ...picture.smaller];
}

async function takeInReports(tx: Db, noun: Noun, file: OpenExport): Promise<void> {
  for await (const { row, line } of file.rows(noun)) {
    const bytes = await file.file(reportName(String(row.sha256)));
    const place = `${rowsName(noun)}, line ${line}`;
    if (bytes.length !== row.size)
      throw new FileFault(`${place}, size: the report has ${bytes.length} bytes.`);
    await placed(place, () => insertRows(tx, noun, [row], () => ({ bytes })));
  }
}

/** What the database refuses is told with its place, by the name of what has to be true. */
async function placed(place: string, put: () => Promise<void>): Promise<void> {
  try {
    await put();
  } catch (error) {
    const refusal = refusalOf(error);
    if (typeof refusal === "object")
      throw new FileFault(`${place}: the database refuses it (${refusal.broken}).`);
    throw error;
  }
}
