import { z } from "zod";
import { meltOxides } from "../chem/restating.ts";
import { standingWords } from "../db/library.ts";
import type { Place } from "../db/library-picking.ts";
import { tileAtmospheres } from "../db/tiles.ts";
import { check } from "../wire/body.ts";
import { decimalWithin, line } from "../wire/fields.ts";
import type { Fault } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";
import { colour } from "./wall-search.ts";

const moles = decimalWithin(0, 1000, 6).transform((given) => given.toNumber());

type Bounds = Record<`${"least" | "most"}.${(typeof meltOxides)[number]}`, typeof bound>;
const bound = moles.optional();

const bounds = Object.fromEntries(
  meltOxides.flatMap((oxide) => [
    [`least.${oxide}`, bound],
    [`most.${oxide}`, bound],
  ]),
) as Bounds;

const place = z
  .string()
  .max(600)
  .transform((typed, context): Place => {
    const read = cursor.safeParse(parsed(typed));
    if (read.success) {
      const [by, key, nameKey, id] = read.data;
      return { by, key, nameKey, id };
    }
    context.addIssue({ code: "custom", message: "This is not a place in the list." });
    return z.NEVER;
  });

const cursor = z.tuple([z.enum(["name", "words", "colour"]), z.number(), z.string(), z.uuid()]);

function parsed(typed: string): unknown {
  try {
    return JSON.parse(Buffer.from(typed, "base64url").toString());
  } catch {
    return undefined;
  }
}

export const writePlace = ({ by, key, nameKey, id }: Place): string =>
  Buffer.from(JSON.stringify([by, key, nameKey, id])).toString("base64url");

export const findQuery = z.object({
  q: line(100).optional(),
  cone: cone.optional(),
  use: z.enum(["functional", "decorative"]).optional(),
  standing: z.enum(standingWords).optional(),
  atmosphere: z
    .enum(tileAtmospheres, { error: `One of: ${tileAtmospheres.join(", ")}.` })
    .optional(),
  surface: line(60).optional(),
  colour: colour.optional(),
  maker: line(80).optional(),
  without: z.array(line(80)).max(20).optional(),
  stocked: z.enum(["1"], { error: "1, or nothing." }).optional(),
  ...bounds,
  counts: z.enum(["1"], { error: "1, or nothing." }).optional(),
  after: place.optional(),
});

/** What the address says, as it was typed, without what was left empty. */
export type Asked = Readonly<Record<string, readonly string[]>>;

export type FindRead =
  | { kind: "read"; value: z.output<typeof findQuery>; asked: Asked }
  | { kind: "refused"; faults: Fault[]; asked: Asked };

/** Reads the address of a search. A form sends a colour as chosen and as typed: one of them is empty. */
export function readFind(queries: Record<string, string[]>): FindRead {
  const asked: Asked = Object.fromEntries(
    Object.entries(queries).flatMap(([name, values]) => {
      const filled = values.filter((value) => value.trim() !== "");
      return filled.length === 0 ? [] : [[name, filled]];
    }),
  );
  const typed = Object.fromEntries(
    Object.entries(asked).map(([name, values]) => [name, name === "without" ? values : values[0]]),
  );
  const read = check(findQuery, typed);
  const faults = [
    ...(read.kind === "refused" ? read.faults.map(ofField) : crossed(read.value)),
    ...(asked.colour && asked.colour.length > 1 ? [chooseOne] : []),
    ...Object.keys(asked).filter(isNoOxide).map(noSuchOxide),
  ];
  if (faults.length > 0 || read.kind === "refused") return { kind: "refused", faults, asked };
  return { kind: "read", value: read.value, asked };
}

/** One of several powders is at fault in the field that holds them all. */
const ofField = ({ path, says }: Fault): Fault => ({
  path: path.startsWith("without.") ? "without" : path,
  says,
});

function crossed(value: z.output<typeof findQuery>): Fault[] {
  return meltOxides.flatMap((oxide) => {
    const [least, most] = [value[`least.${oxide}`], value[`most.${oxide}`]];
    return least !== undefined && most !== undefined && least > most
      ? [{ path: `most.${oxide}`, says: `The most ${oxide} is less than the least.` }]
      : [];
  });
}

const isNoOxide = (name: string): boolean =>
  /^(least|most)\./.test(name) && !(name in findQuery.shape);

const noSuchOxide = (path: string): Fault => ({
  path,
  says: `One of these oxides of the unity formula: ${meltOxides.join(", ")}.`,
});

const chooseOne: Fault = {
  path: "colour",
  says: "Choose a colour or type one, not both: empty the figures, or choose “any”.",
};

/** The ranges of oxides that were asked for. */
export const rangesOf = (value: z.output<typeof findQuery>) =>
  meltOxides.flatMap((oxide) => {
    const [least, most] = [value[`least.${oxide}`], value[`most.${oxide}`]];
    return least === undefined && most === undefined ? [] : [{ oxide, least, most }];
  });

/** The address of a search, its parts always in the same order; `different` leaves out or puts in. */
export function addressOf(asked: Asked, different: Asked = {}): string {
  const wanted = { ...asked, ...different };
  const words = new URLSearchParams();
  for (const name of Object.keys(findQuery.shape))
    for (const value of wanted[name] ?? []) words.append(name, value);
  const query = words.toString();
  return query === "" ? "/recipes" : `/recipes?${query}`;
}
