import { Hono } from "hono";
import { v7 as uuidv7 } from "uuid";
import { MovesPage } from "../../views/moves/page.tsx";
import { movedTarget } from "../chem/moved-target.ts";
import { findRecipe } from "../db/recipes.ts";
import { findRevision } from "../db/revisions.ts";
import { answer, wantsJson } from "../wire/answers.tsx";
import type { Env } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { movesAddress, movesQuery, readMoves } from "../wire/moves-query.ts";
import { readerRequired } from "../wire/permissions.ts";
import { faulty, notFound } from "../wire/problems.tsx";
import { movesJson } from "./moves-json.ts";
import { sheetOf, shelfAsked } from "./moves-sheet.ts";
import { solveMoves } from "./moves-solving.ts";
import { publishedLines, readShelf, targetOfLines } from "./restate-reading.ts";
import { unsolved } from "./solved.ts";

export const moves = new Hono<Env>();

moves.get(
  "/:slug/moves",
  described({
    says: "The recipe that moved oxides of a unity formula lead to, and its neighbours in chemistry",
    query: movesQuery,
  }),
  readerRequired,
  async (c) => {
    const { db, viewer } = c.var;
    const read = readMoves(c.req.queries());
    const recipe = await findRecipe(db, { slug: c.req.param("slug"), reader: viewer });
    const number = read.state.revision ?? recipe?.head;
    const revision = recipe && number && (await findRevision(db, { recipeId: recipe.id, number }));
    if (!recipe || !revision) return notFound(c);
    const { slug, name, shownTo } = recipe;
    const isPrivate = shownTo === "private";
    const source = { slug, name, number: revision.number, isPrivate, cones: revision.cones };
    const present = targetOfLines(publishedLines(revision), source);
    if (present.kind === "faulty") return faulty(c, present);

    const target = movedTarget(present.target.wanted, read.state.moves, read.state.held);
    const refused = target.kind === "refused" && read.faults.length === 0 ? [target] : [];
    const state =
      target.kind === "refused"
        ? { ...read.state, moves: read.state.moves.slice(0, target.at) }
        : read.state;
    const shelf = await readShelf(db, shelfAsked(state, present.target));
    const faults = [
      ...read.faults,
      ...refused.map(({ at, says }) => ({ path: read.places[at] ?? "set", says })),
      ...shelf.faults,
    ];
    const wanted = { ...present.target, wanted: target.wanted };
    const page = { title: `Move an oxide of ${name}`, here: "library" } as const;
    const asked = { recipe, revision, present: present.target, wanted, state, shelf };
    if (faults.length > 0) {
      const sheet = await sheetOf(c, asked);
      return faulty(
        c,
        { faults },
        {
          page,
          view: () => MovesPage({ ...sheet, typed: read.typed, faults, idempotencyKey: uuidv7() }),
        },
      );
    }
    // What was typed in a box is a move like any other: its address is the one to send on.
    if (Object.keys(read.typed).length > 0 && !wantsJson(c))
      return c.redirect(movesAddress(slug, state), 302);

    const solved =
      state.moves.length > 0
        ? await solveMoves(c, { revision, target: wanted, state, shelf })
        : undefined;
    if (solved?.kind === "unsolved") return unsolved(c, solved.solved);
    const sheet = await sheetOf(c, { ...asked, moved: solved?.moved });
    return answer(c, {
      json: () => movesJson(sheet),
      page,
      view: () => MovesPage({ ...sheet, typed: {}, faults: [], idempotencyKey: uuidv7() }),
    });
  },
);
