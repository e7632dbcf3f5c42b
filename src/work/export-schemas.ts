import { z } from "zod";
import { type Field, fieldsOf, type Holds } from "../db/export-fields.ts";
import type { Noun } from "../db/export-nouns.ts";

/**
 * The shape of one row of a noun, made from the table that it comes from: every field, and no other.
 *
 * @param older a file of an earlier schema may lack fields that came later, where the database knows
 *   what to put there.
 */
export const rowSchema = (noun: Noun, { older = false }: { older?: boolean } = {}) =>
  z.strictObject(
    Object.fromEntries(fieldsOf(noun).map((field) => [field.name, fieldSchema(field, older)])),
  );

function fieldSchema({ holds, nullable, hasDefault }: Field, older: boolean): z.ZodType {
  const given = nullable ? valueSchema(holds).nullable() : valueSchema(holds);
  return older && (nullable || hasDefault) ? given.optional() : given;
}

// Postgres takes neither in a text.
const text = z
  .string()
  .refine((typed) => !/\0|\p{Surrogate}/u.test(typed), "no text that can be stored");

function valueSchema(holds: Holds): z.ZodType {
  switch (holds.is) {
    case "id":
      return z.string().regex(/^[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}$/);
    case "text":
      return holds.words ? z.enum([...holds.words] as [string, ...string[]]) : text;
    case "moment":
      return z.iso
        .datetime({ precision: 3 })
        .refine((typed) => isMoment(typed, typed), "no moment that there is");
    case "day":
      return z.iso.date().refine((typed) => isMoment(typed, `${typed}T00:00:00.000Z`));
    case "boolean":
      return z.boolean();
    case "integer":
      return z.int().min(holds.least).max(holds.most);
    case "float":
      return z.number();
    case "decimal":
      return decimalSchema(holds.scale);
    case "bytes":
      return z.base64();
    case "list":
      return z.array(valueSchema(holds.of)).max(10_000);
    case "json":
      return z.unknown().refine((given) => given !== undefined && given !== null, "is missing");
  }
}

const isMoment = (typed: string, whole: string): boolean => {
  const read = new Date(whole);
  return !Number.isNaN(read.getTime()) && read.toISOString().startsWith(typed);
};

/** Plain digits without zeros at the end, no finer than the column: 40, 0.25, -1.5. */
const decimalSchema = (scale: number) =>
  z
    .string()
    .regex(
      scale === 0
        ? /^-?(0|[1-9]\d{0,19})$/
        : new RegExp(`^-?(0|[1-9]\\d{0,19})(\\.\\d{0,${scale - 1}}[1-9])?$`),
    )
    .refine((typed) => typed !== "-0", "zero has no sign");
