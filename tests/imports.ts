import type { TestStudio, Who } from "./studio.ts";

export type Plan = {
  dryRun: boolean;
  ready: boolean;
  brings: Record<"recipes" | "materials" | "analyses" | "notes", number>;
  matches: Record<string, string>;
  takenInBefore: { id: string; takenBack: boolean }[];
  names: {
    name: string;
    is: string | null;
    possible: {
      material: { slug: string };
      how: string;
      because: string;
      analysis: { source: string; measuredOn: string | null } | null;
      cautions: string[];
    }[];
  }[];
  analyses: { place: string; material: string; is: string }[];
  recipes: {
    place: string;
    name: string;
    is: string;
    as: string | null;
    here: { slug: string } | null;
    says: string;
    errors: { path: string; says: string }[];
  }[];
  notes: { recipe: string; text: string }[];
  refused: { noun: string; place: string; errors: { path: string; says: string }[] }[];
  leftBehind: string[];
};

export type Import = {
  id: string;
  recipes: { slug: string; name: string; withdrawn: boolean; since: string[] }[];
  materials: { slug: string; name: string; offered: boolean }[];
  analyses: { id: string; slug: string; inUse: boolean }[];
  notes: { id: string; text: string }[];
};

/** A file as JSON in a request; a string is the text of a CSV. */
export const importing = (file: unknown, more: Record<string, unknown> = {}) => ({
  json: { file, fileName: "shelf.json", dryRun: false, ...more },
});

/** What a file would bring. */
export async function planOf(studio: TestStudio, file: unknown, more = {}): Promise<Plan> {
  const answer = await studio.send(
    "manager",
    "/import",
    importing(file, { dryRun: true, ...more }),
  );
  if (answer.status !== 200) throw new Error(`${answer.status} ${await answer.text()}`);
  return (await answer.json()) as Plan;
}

/** Takes a file in with the matches that the dry run would choose, and further ones. */
export async function takeIn(
  studio: TestStudio,
  file: unknown,
  { matches = {}, ...more }: { matches?: Record<string, string>; [name: string]: unknown } = {},
): Promise<Import> {
  const plan = await planOf(studio, file, { matches });
  const sent = { ...more, matches: { ...plan.matches, ...matches } };
  const answer = await studio.send("manager", "/import", importing(file, sent));
  if (answer.status !== 201) throw new Error(`${answer.status} ${await answer.text()}`);
  return (await answer.json()) as Import;
}

/** A file sent as a browser sends it. */
export function fileForm(
  bytes: Uint8Array | string,
  fields: Record<string, string> = {},
): FormData {
  const form = new FormData();
  form.set("file", new File([bytes as unknown as BlobPart], fields.name ?? "a.csv"));
  for (const [name, value] of Object.entries(fields)) if (name !== "name") form.set(name, value);
  return form;
}

export const sendFile = (
  studio: TestStudio,
  bytes: Uint8Array | string,
  fields: Record<string, string> = {},
  who: Who = "manager",
) => studio.send(who, "/import", { form: fileForm(bytes, fields), accept: "application/json" });

let made = 0;

/** A recipe in the shape of the file, with amounts of its own so that no other is the same. */
export function recipeInFile(different: Record<string, unknown> = {}, lines?: unknown[]) {
  made += 1;
  return {
    name: `Ebb ${made}`,
    revision: {
      lines: lines ?? [
        { part: "base", material: "Potash feldspar", amount: `${40 + made / 100}` },
        { part: "base", material: "Whiting", amount: "20" },
        { part: "base", material: "Quartz", amount: "25" },
        { part: "base", material: "Kaolin", amount: "15" },
      ],
      cones: { low: "6", high: "6" },
    },
    ...different,
  };
}

export const inFrame = (parts: { materials?: unknown[]; recipes?: unknown[] }) => ({
  format: "common-bucket/import",
  version: 1,
  ...parts,
});
