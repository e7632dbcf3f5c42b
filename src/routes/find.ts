import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { LibraryPage } from "../../views/recipes/library.tsx";
import { listStockedRecipes } from "../db/bucket-stock.ts";
import { listStrips, type Search } from "../db/library.ts";
import { countStrips } from "../db/library-counts.ts";
import { orderOf } from "../db/library-picking.ts";
import { listSavedSearches } from "../db/saved-searches.ts";
import { findMaker, findPowders } from "../db/search-names.ts";
import { understand } from "../db/understanding.ts";
import { page, wantsJson } from "../wire/answers.tsx";
import type { Ctx, Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { sameForVisitors } from "../wire/kept-answers.ts";
import { readerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, signInFirst } from "../wire/problems.tsx";
import { fromReplica } from "../wire/replica.ts";
import {
  type Asked,
  addressOf,
  type FindRead,
  findQuery,
  rangesOf,
  readFind,
  writePlace,
} from "./find-query.ts";
import { inForce, meaningsFor } from "./find-words.ts";

export const find = new Hono<Env>();

const perPage = 50;

find.get(
  "/",
  described({
    says: "The library: what is approved as functional first, then by name; or what fits a search best",
    query: findQuery,
  }),
  readerRequired,
  fromReplica(
    sameForVisitors(async (c) => {
      const read = readFind(c.req.queries());
      if (read.kind === "refused") return refused(c, read);
      if (read.value.stocked && !c.var.viewer) return signInFirst(c);
      const found = await findStrips(c, read);
      if (found.kind === "refused") return refused(c, found);
      if (wantsJson(c)) return c.json(found.json);
      return libraryPage(c, found);
    }),
  ),
);

type Refused = { kind: "refused"; faults: Fault[]; asked: Asked };

const refused = async (c: Ctx, given: Refused) =>
  faulty(c, given, {
    page: { title: "Library", here: "library" },
    view: () => LibraryPage({ ...blank(c, given.asked), faults: given.faults }),
  });

type Read = Extract<FindRead, { kind: "read" }>;

/** What the address asks for, or what in it means nothing here. */
async function findStrips(c: Ctx, read: Read) {
  const { db, viewer: reader, now } = c.var;
  const { value, asked } = read;
  const named = await readNames(c, read);
  if (named.kind === "refused") return { ...named, asked };
  const understood =
    value.q === undefined ? undefined : await understand(db, { q: value.q, reader });
  const { cone, use, surface, atmosphere, standing, colour, stocked, after } = value;
  const search: Search = {
    ...{ cone, use, surface, atmosphere, standing, colour },
    ...{ without: named.without.map(({ id }) => id), oxides: rangesOf(value) },
    makers: named.maker && [named.maker.id],
    among: stocked && (await listStockedRecipes(db, { reader, now })),
    terms: understood?.terms ?? undefined,
    typed: understood?.typed,
  };
  if (after && after.by !== orderOf(search)) {
    const says = "This is a place in another list. Begin again without it.";
    return { kind: "refused" as const, faults: [{ path: "after", says }], asked };
  }
  const nothing = understood?.terms === null;
  const { strips, next } = nothing
    ? { strips: [], next: null }
    : await listStrips(db, { reader, now, search, after, limit: perPage });
  const wanted = value.counts !== undefined || !wantsJson(c);
  const counts = wanted && !nothing ? await countStrips(db, { reader, now, search }) : undefined;
  const cursor = next && writePlace(next);
  return {
    ...{ kind: "found" as const, asked, named, understood, strips, counts, cursor },
    json: {
      items: strips.map(({ id: _, ...strip }) => strip),
      next: cursor,
      ...(understood && { understood: understood.meanings }),
      ...(counts && { counts }),
    },
  };
}

/** The maker and the powders that are named; what goes by no such name is at fault. */
async function readNames(c: Ctx, { value }: Read) {
  const { db, viewer: reader } = c.var;
  const faults: Fault[] = [];
  const maker =
    value.maker === undefined ? undefined : await findMaker(db, { typed: value.maker, reader });
  if (value.maker !== undefined && !maker)
    faults.push({ path: "maker", says: `No glaze here was made by “${value.maker}”.` });
  const without = [];
  for (const typed of value.without ?? []) {
    const powders = await findPowders(db, typed);
    if (powders.length === 0)
      faults.push({ path: "without", says: `No powder here goes by the name “${typed}”.` });
    without.push(...powders.map((powder) => ({ ...powder, typed })));
  }
  if (faults.length > 0) return { kind: "refused" as const, faults };
  return { kind: "named" as const, maker, without };
}

type Found = Extract<Awaited<ReturnType<typeof findStrips>>, { kind: "found" }>;

async function libraryPage(c: Ctx, found: Found) {
  const { asked, named, understood, strips, counts, cursor } = found;
  const { viewer } = c.var;
  const saved = viewer ? await listSavedSearches(c.var.db, { personId: viewer.id }) : [];
  return page(c, { title: "Library", here: "library" }, () =>
    LibraryPage({
      ...blank(c, asked),
      ...{ strips, counts, saved },
      meanings: meaningsFor(asked, understood?.meanings ?? []),
      inForce: inForce(asked, named),
      next: cursor === null ? undefined : addressOf(asked, { after: [cursor] }),
    }),
  );
}

/** The page with what was typed and nothing found. */
const blank = (c: Ctx, asked: Asked) => ({
  ...{ asked, strips: [], saved: [], meanings: [], faults: [], next: undefined },
  inForce: inForce(asked, { maker: undefined, without: [] }),
  query: addressOf(asked, { after: [], counts: [] }).split("?")[1],
  mayAdd: c.var.viewer !== undefined,
  mayTakeIn: c.var.viewer?.role === "manager",
  idempotencyKey: uuidv7(),
});
