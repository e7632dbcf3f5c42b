import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { z } from "zod";
import { SavedSearchesPage } from "../../views/recipes/saved-searches.tsx";
import {
  forgetSearch,
  listSavedSearches,
  mostSaved,
  type SavedSearch,
  saveSearch,
} from "../db/saved-searches.ts";
import { answer, changed, created } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { idempotencyKey, line } from "../wire/fields.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";
import { addressOf, readFind } from "./find-query.ts";

export const savedSearches = new Hono<Env>();

const searchBody = z.object({
  name: line(80),
  /** What stands behind the "?" in the library's address. */
  query: z.string().trim().max(2000),
  idempotencyKey,
});

const nothingAsked: Fault = {
  path: "query",
  says: "This search asks for nothing yet: narrow the library first.",
};

savedSearches.get(
  "/",
  described({ says: "Your own searches by name" }),
  memberRequired,
  async (c) => {
    const { db, viewer } = c.var;
    const searches = await listSavedSearches(db, { personId: viewer?.id ?? "" });
    return answer(c, {
      json: () => ({ items: searches.map(searchJson) }),
      page: { title: "Your searches", here: "library" },
      view: () => SavedSearchesPage({ searches, faults: [], typed: {}, idempotencyKey: uuidv7() }),
    });
  },
);

savedSearches.post(
  "/",
  described({ says: "Keep a search of the library under a name", body: searchBody, status: 201 }),
  memberRequired,
  async (c) => {
    const read = await readBody(c, searchBody);
    if (read.kind === "refused") return refusedSearch(c, read.faults, read.typed);
    const { name, query: typed } = read.value;
    const query = readQuery(typed);
    if (query.kind === "refused") return refusedSearch(c, query.faults, read.typed);
    const by = c.var.viewer?.id ?? "";
    const saving = await saveSearch(c.var.db, { name, query: query.text, by, at: c.var.now });
    switch (saving.kind) {
      case "saved":
        return created(c, `/recipes?${query.text}`, searchJson(saving.search));
      case "name-taken": {
        const says = "You have a search of this name already. Give this one another.";
        return refusedSearch(c, [{ path: "name", says }], read.typed);
      }
      case "enough": {
        const says = `You keep ${mostSaved} searches, which is as many as there is room for. Delete one first.`;
        return refusedSearch(c, [{ path: "", says }], read.typed);
      }
    }
  },
);

const remove = async (c: Ctx) => {
  const id = c.req.param("id") ?? "";
  const gone = await forgetSearch(c.var.db, { id, personId: c.var.viewer?.id ?? "" });
  return gone ? changed(c, "/searches", { id }) : notFound(c);
};

const removal = described({ says: "Delete one of your own searches" });
savedSearches.delete("/:id", removal, memberRequired, remove);
savedSearches.post("/:id/end", removal, memberRequired, remove);

/** A search as it is kept: what the library can read, in one order, from its first page on. */
function readQuery(
  typed: string,
): { kind: "read"; text: string } | { kind: "refused"; faults: Fault[] } {
  const sent = new URLSearchParams(typed.replace(/^\?/, ""));
  const queries = Object.fromEntries([...sent.keys()].map((name) => [name, sent.getAll(name)]));
  const read = readFind(queries);
  if (read.kind === "refused")
    return {
      kind: "refused",
      faults: read.faults.map(({ path, says }) => ({ path: "query", says: `${path}: ${says}` })),
    };
  const [, text] = addressOf(read.asked, { after: [], counts: [] }).split("?");
  return text === undefined ? { kind: "refused", faults: [nothingAsked] } : { kind: "read", text };
}

async function refusedSearch(c: Ctx, faults: readonly Fault[], typed: Record<string, unknown>) {
  const searches = await listSavedSearches(c.var.db, { personId: c.var.viewer?.id ?? "" });
  return faulty(
    c,
    { faults },
    {
      page: { title: "Your searches", here: "library" },
      view: () => SavedSearchesPage({ searches, faults, typed, idempotencyKey: uuidv7() }),
    },
  );
}

const searchJson = ({ savedAt, ...search }: SavedSearch) => ({
  ...search,
  href: `/recipes?${search.query}`,
  savedAt: savedAt.toISOString(),
});
