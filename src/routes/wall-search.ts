import { z } from "zod";
import { isPlainColour, type LabTriple, plainColours } from "../chem/plain-colours.ts";
import { tileAtmospheres, tileDefects } from "../db/tiles.ts";
import type { WallPlace } from "../db/wall.ts";
import { check, type Typed } from "../wire/body.ts";
import { line } from "../wire/fields.ts";
import type { Fault } from "../wire/problems.tsx";
import { cone } from "../wire/recipe-body.ts";

const lab = z.tuple([
  z.coerce.number().min(0).max(100),
  z.coerce.number().min(-160).max(160),
  z.coerce.number().min(-160).max(160),
]);

const figures = /^[+-]?\d{1,3}(\.\d{1,6})?(\s*,\s*[+-]?\d{1,3}(\.\d{1,6})?){2}$/;

/** One of the plain colours by its word, or three figures. */
export const colour = z.string().transform((typed, context): LabTriple => {
  // Pages print a true minus, and people copy what they read.
  const word = typed.trim().toLowerCase().replaceAll("−", "-");
  if (isPlainColour(word)) return plainColours[word];
  const read = lab.safeParse(figures.test(word) ? word.split(",") : []);
  if (read.success) return read.data;
  context.addIssue({
    code: "custom",
    message: `One of ${Object.keys(plainColours).join(", ")}; or L*, a* and b* with commas, such as 52,-10,20: L* from 0 to 100, a* and b* from -160 to 160.`,
  });
  return z.NEVER;
});

/** A page of the wall ends at a tile; in the order of colours, at how far from the colour that is. */
const place = z
  .string()
  .regex(/^(\d[\d.e+-]{0,30}~)?[0-9a-f-]{36}$/, "This is not a place on the wall.")
  .transform((typed, context): WallPlace => {
    const [id = "", distance] = typed.split("~").reverse();
    const read = z
      .object({ id: z.uuid(), distance: z.coerce.number().nullable() })
      .safeParse({ id, distance: distance ?? null });
    if (read.success) return read.data;
    context.addIssue({ code: "custom", message: "This is not a place on the wall." });
    return z.NEVER;
  });

export const wallQuery = z.object({
  cone: cone.optional(),
  body: z
    .string()
    .regex(/^[a-z0-9-]{1,80}$/, "A body by its address, such as loft-stoneware.")
    .optional(),
  surface: line(60).optional(),
  defect: z
    .enum([...tileDefects, "none"], { error: `One of: ${tileDefects.join(", ")}, none.` })
    .optional(),
  colour: colour.optional(),
  atmosphere: z
    .enum(tileAtmospheres, { error: `One of: ${tileAtmospheres.join(", ")}.` })
    .optional(),
  after: place.optional(),
});

/** The words of an address that narrow the wall, without what was left empty. */
export type AskedWall = Partial<Record<keyof typeof wallQuery.shape, string>>;

export type ReadWall =
  | { kind: "read"; value: z.output<typeof wallQuery>; asked: AskedWall }
  | { kind: "refused"; faults: Fault[]; asked: AskedWall };

/** Reads the address. A form sends a colour twice, as chosen and as typed: one of them is empty. */
export function readWall(queries: Record<string, string[]>): ReadWall {
  const filled = Object.entries(queries).map(
    ([name, values]) => [name, values.filter((value) => value.trim() !== "")] as const,
  );
  const asked: AskedWall = Object.fromEntries(
    filled.flatMap(([name, [first]]) => (first === undefined ? [] : [[name, first]])),
  );
  const twice = filled.find(([name, values]) => name === "colour" && values.length > 1);
  if (twice) return { kind: "refused", faults: [chooseOne], asked };
  const read = check(wallQuery, asked satisfies Typed);
  if (read.kind === "refused") return { ...read, asked };
  const { colour, after } = read.value;
  if (after && (after.distance === null) !== (colour === undefined))
    return { kind: "refused", faults: [elsewhere], asked };
  return { kind: "read", value: read.value, asked };
}

const chooseOne: Fault = {
  path: "colour",
  says: "Choose a colour or type one, not both: empty the figures, or choose “any”.",
};

const elsewhere: Fault = {
  path: "after",
  says: "This is a place on another wall. Begin again without it.",
};

export const writePlace = ({ id, distance }: WallPlace): string =>
  distance === null ? id : `${distance}~${id}`;
