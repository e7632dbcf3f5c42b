import { z } from "zod";
import { mostMoles, type OxideMove } from "../chem/moved-target.ts";
import { isOxide, type Oxide, oxides } from "../chem/oxides.ts";
import { mostNearest } from "../db/nearest.ts";
import { check } from "./body.ts";
import { decimalText, line, ticked, whole } from "./fields.ts";
import type { Fault } from "./problems.tsx";
import { mostOnShelf } from "./restate-body.ts";

/** How many moves one address may hold. */
export const mostMoves = 40;

const oxideHere = z.string().transform((typed, context): Oxide => {
  if (isOxide(typed)) return typed;
  context.addIssue({
    code: "custom",
    message: `“${typed.slice(0, 20)}” is no oxide as it is written here: SiO2, Al2O3, K2O and so on, iron as Fe2O3.`,
  });
  return z.NEVER;
});

const moles = decimalText.refine((given) => given.gte(0) && given.lte(mostMoles), {
  error: `Moles for one of flux: a number from 0 to ${mostMoles}.`,
});

/** `SiO2:3.6`: an oxide and what it is moved to. */
const move = z.string().transform((typed, context): OxideMove => {
  const [name = "", to = ""] = typed.split(":");
  const oxide = oxideHere.safeParse(name);
  const given = moles.safeParse(to);
  if (oxide.success && given.success) return { oxide: oxide.data, to: given.data.toNumber() };
  for (const { message } of (oxide.error ?? given.error)?.issues ?? [])
    context.addIssue({ code: "custom", message });
  return z.NEVER;
});

const revision = whole(1, 1_000_000).optional();

export const movesQuery = z.object({
  revision,
  set: z
    .array(move)
    .max(
      mostMoves,
      `At most ${mostMoves} moves at a time. Publish where you are, and go on there.`,
    ),
  hold: z.array(oxideHere).max(oxides.length),
  shelf: z.array(line(80)).max(mostOnShelf, `At most ${mostOnShelf} materials at a time.`),
  allSold: ticked.default(false),
});

export const nearestQuery = z.object({ revision, limit: whole(1, mostNearest).default(10) });

/** Where somebody is: what was moved, in the order in which it was, what is held, and from what. */
export type MovesState = {
  revision?: number | undefined;
  moves: OxideMove[];
  held: Oxide[];
  /** By slug; none stands for the recipe's own powders. */
  shelf: string[];
  allSold: boolean;
};

/**
 * `typed` is what stands in the boxes of the form, by oxide; each of them is one more move. `places`
 * tells of each move where it was said, as the path of a fault.
 */
export type ReadMoves = {
  state: MovesState;
  typed: Record<string, string>;
  places: string[];
  faults: Fault[];
};

/**
 * Reads the address. What of it cannot be read is a fault, and the state is the rest of it. A box
 * that was typed in, `to.SiO2=3.6`, is a move behind those that are there.
 */
export function readMoves(queries: Record<string, string[]>): ReadMoves {
  const { set = [], hold = [], shelf = [], ...rest } = queries;
  const typed = Object.entries(rest).flatMap(([name, [text = ""]]) =>
    name.startsWith("to.") && text.trim() !== "" ? [[name.slice(3), text.trim()] as const] : [],
  );
  const sets = [...set, ...typed.map(([oxide, text]) => `${oxide}:${text}`)];
  const asked = {
    ...{ set: sets, hold, shelf },
    ...(rest.revision?.[0] && { revision: rest.revision[0] }),
    ...(rest.allSold?.[0] && { allSold: rest.allSold[0] }),
  };
  const read = check(movesQuery, asked);
  const boxes = Object.fromEntries(typed);
  const places = [...set.map((_, at) => `set.${at}`), ...typed.map(([oxide]) => `to.${oxide}`)];
  if (read.kind === "read") {
    const { set: moves, hold: held, ...more } = read.value;
    return { state: { ...more, moves, held }, typed: boxes, places, faults: [] };
  }
  const state = {
    moves: valid(move, set).slice(0, mostMoves),
    held: valid(oxideHere, hold),
    shelf: valid(line(80), shelf).slice(0, mostOnShelf),
    allSold: false,
  };
  const faults = read.faults.map(({ path, says }) => {
    const [, at] = /^set\.(\d+)$/.exec(path) ?? [];
    return { path: places[Number(at)] ?? path, says };
  });
  return { state, typed: boxes, places, faults };
}

const valid = <S extends z.ZodType>(schema: S, given: readonly string[]): z.output<S>[] =>
  given.flatMap((each) => {
    const read = schema.safeParse(each);
    return read.success ? [read.data] : [];
  });

/** The address of a state, which is all that is needed to come back to it. */
export function movesAddress(slug: string, state: MovesState): string {
  const query = new URLSearchParams([
    ...(state.revision === undefined ? [] : [["revision", String(state.revision)]]),
    ...state.moves.map(({ oxide, to }) => ["set", `${oxide}:${to}`]),
    ...state.held.map((oxide) => ["hold", oxide]),
    ...state.shelf.map((material) => ["shelf", material]),
    ...(state.allSold ? [["allSold", "on"]] : []),
  ]);
  return `/recipes/${slug}/moves${query.size > 0 ? `?${query}` : ""}`;
}
