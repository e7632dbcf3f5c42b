import { type Quantity, workOut } from "../chem/chemistry.ts";
import { holdWithin, oxidesIn, stepOf } from "../chem/moved-target.ts";
import { type Oxide, oxides } from "../chem/oxides.ts";
import type { Moles } from "../chem/restating.ts";
import { listNearest, type Neighbour } from "../db/nearest.ts";
import type { FoundRecipe } from "../db/recipes.ts";
import type { FoundRevision } from "../db/revisions.ts";
import { listShelf } from "../db/shelf.ts";
import type { Ctx } from "../wire/context.ts";
import { type MovesState, movesAddress } from "../wire/moves-query.ts";
import { mostOnShelf } from "../wire/restate-body.ts";
import { type Moved, movedOxides } from "./moves-solving.ts";
import type { ShelfRead, Target } from "./restate-reading.ts";

/** One oxide of the formula: what it is now, what is wanted, and where a press takes it. */
export type MovesRow = {
  oxide: Oxide;
  now: Quantity;
  wanted: number;
  moved: boolean;
  held: boolean;
  /** How far it may be off while it is held, moles. */
  within: number;
  step: number;
};

/** All that the page of moves shows, whatever it is asked for. */
export type MovesSheet = {
  recipe: { slug: string; name: string };
  revision: Pick<FoundRevision, "number" | "cones">;
  state: MovesState;
  rows: MovesRow[];
  /** What the shelf could bring in beside. */
  others: Oxide[];
  materials: { slug: string; name: string; stillSold: boolean; ticked: boolean }[];
  leftOut: ShelfRead["leftOut"];
  moved: Moved | undefined;
  /** `of` is the formula that they are the neighbours of. */
  neighbours: { to: "moved" | "as it is"; of: Moles; items: Neighbour[] };
  /** Where the last move is not made yet. */
  undo: string | undefined;
  member: boolean;
};

type Asked = {
  recipe: FoundRecipe;
  revision: FoundRevision;
  present: Target;
  /** The same with its moves made. */
  wanted: Target;
  state: MovesState;
  shelf: ShelfRead;
  moved?: Moved | undefined;
};

const neighboursShown = 10;

/** What the page shows beside what the solver found: the formula, the shelf and the neighbours. */
export async function sheetOf(c: Ctx, asked: Asked): Promise<MovesSheet> {
  const { recipe, revision, present, wanted, state, shelf, moved } = asked;
  const rows = rowsOf(present, wanted.wanted, state);
  const told = rows.map(({ oxide }) => oxide);
  const brought = shelf.shelf.flatMap(({ analysis }) => Object.keys(analysis.oxides));
  const ticked = shelfAsked(state, present).shelf;
  const whole = moved && moved.status !== "none" ? moved.whole : undefined;
  const to = whole ?? molesOf(revision.chemistry.unity);
  const { db, viewer: reader } = c.var;
  const { materials } = await listShelf(db, { limit: mostOnShelf });
  return {
    recipe: { slug: recipe.slug, name: recipe.name },
    revision,
    state,
    rows,
    others: oxides.filter((oxide) => brought.includes(oxide) && !told.includes(oxide)),
    materials: materials.flatMap(({ slug, name, stillSold, inUse }) =>
      inUse ? [{ slug, name, stillSold, ticked: ticked.includes(slug) }] : [],
    ),
    leftOut: shelf.leftOut,
    moved,
    neighbours: {
      to: whole ? "moved" : "as it is",
      of: to,
      items: await listNearest(db, { to, reader, besides: recipe.id, limit: neighboursShown }),
    },
    undo:
      state.moves.length > 0
        ? movesAddress(recipe.slug, { ...state, moves: state.moves.slice(0, -1) })
        : undefined,
    member: reader !== undefined,
  };
}

/** The shelf that is asked for: what was ticked, or the recipe's own powders where nothing was. */
export const shelfAsked = ({ shelf, allSold }: MovesState, { base }: Target) => ({
  ...{ allSold, bounds: {}, required: [], forbidden: [] },
  shelf: shelf.length > 0 ? shelf : [...new Set(base.map(({ material }) => material))],
});

function rowsOf(present: Target, wanted: Moles, state: MovesState): MovesRow[] {
  const { unity } = workOut({ lines: present.base });
  const moved = movedOxides(state);
  const there = [...oxidesIn(present.wanted), ...oxidesIn(wanted), ...moved, ...state.held];
  return oxides
    .filter((oxide) => there.includes(oxide))
    .map((oxide) => ({
      oxide,
      now: unity?.[oxide] ?? { value: 0, plusMinus: 0 },
      wanted: wanted[oxide] ?? 0,
      moved: moved.includes(oxide),
      held: state.held.includes(oxide),
      within: holdWithin(wanted[oxide] ?? 0),
      step: stepOf(oxide),
    }));
}

/** Values without their ±. */
export const molesOf = (unity: Readonly<Record<string, Quantity>> | null): Moles =>
  Object.fromEntries(Object.entries(unity ?? {}).map(([oxide, { value }]) => [oxide, value]));
