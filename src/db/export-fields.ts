import { Decimal } from "decimal.js";
import { getTableColumns } from "drizzle-orm";
import { getTableConfig, type PgArray, type PgColumn } from "drizzle-orm/pg-core";
import type { Noun } from "./export-nouns.ts";

export type Json = null | boolean | number | string | Json[] | { [name: string]: Json };
export type ExportRow = Record<string, Json>;

/** What a field holds, by the column that it comes from. */
export type Holds =
  | { is: "id" | "moment" | "day" | "boolean" | "float" | "bytes" | "json" }
  | { is: "text"; words: readonly string[] | undefined }
  | { is: "integer"; least: number; most: number }
  | { is: "decimal"; scale: number }
  | { is: "list"; of: Holds };

export type Field = {
  name: string;
  column: PgColumn;
  holds: Holds;
  nullable: boolean;
  /** Whether the database knows a value where none is given. */
  hasDefault: boolean;
};

/** The fields of a noun's rows, in the order of the schema. */
export const fieldsOf = ({ table, omits }: Noun): Field[] =>
  Object.entries(getTableColumns(table))
    .filter(([name]) => !omits.includes(name))
    .map(([name, column]) => ({
      name,
      column,
      holds: holdsOf(column),
      nullable: !column.notNull,
      hasDefault: column.hasDefault,
    }));

/** The fields that tell a noun's rows apart, by which its file is in order. */
export function keysOf(noun: Noun): Field[] {
  const { columns, primaryKeys } = getTableConfig(noun.table);
  const names = new Set(
    [...columns.filter(({ primary }) => primary), ...(primaryKeys[0]?.columns ?? [])].map(
      ({ name }) => name,
    ),
  );
  // In the order of the key itself, which is not always the table's.
  const order = primaryKeys[0]?.columns.map(({ name }) => name) ?? [...names];
  return fieldsOf(noun)
    .filter(({ column }) => names.has(column.name))
    .sort((one, other) => order.indexOf(one.column.name) - order.indexOf(other.column.name));
}

const integers: Record<string, { least: number; most: number }> = {
  PgSmallInt: { least: -32_768, most: 32_767 },
  PgInteger: { least: -2_147_483_648, most: 2_147_483_647 },
  PgBigInt53: { least: Number.MIN_SAFE_INTEGER, most: Number.MAX_SAFE_INTEGER },
};

const simple: Record<string, Holds> = {
  PgUUID: { is: "id" },
  PgTimestamp: { is: "moment" },
  PgDateString: { is: "day" },
  PgBoolean: { is: "boolean" },
  PgDoublePrecision: { is: "float" },
  PgJsonb: { is: "json" },
};

function holdsOf(column: PgColumn): Holds {
  const { columnType } = column;
  const known = simple[columnType];
  if (known) return known;
  const bounds = integers[columnType];
  if (bounds) return { is: "integer", ...bounds };
  if (columnType === "PgText") return { is: "text", words: column.enumValues };
  if (columnType === "PgArray")
    return { is: "list", of: holdsOf((column as PgArray<never, never>).baseColumn as PgColumn) };
  return customHolds(column);
}

function customHolds(column: PgColumn): Holds {
  const type = column.getSQLType();
  const scale = /^numeric\(\d+, (\d+)\)$/.exec(type)?.[1];
  if (scale !== undefined) return { is: "decimal", scale: Number(scale) };
  if (type === "bytea") return { is: "bytes" };
  if (type.startsWith("text")) return { is: "text", words: undefined };
  throw new Error(`${column.name}: an export knows no ${type}`);
}

/** A value as it was read from a column, as the JSON of an export. */
export function toJson(value: unknown): Json {
  if (value instanceof Date) return value.toISOString();
  if (value instanceof Decimal) return value.toFixed();
  if (value instanceof Uint8Array) return Buffer.from(value).toString("base64");
  return value as Json;
}

/** A field's JSON as its column takes it. */
export function fromJson({ holds }: Pick<Field, "holds">, value: Json): unknown {
  if (value === null) return null;
  switch (holds.is) {
    case "moment":
      return new Date(value as string);
    case "decimal":
      return new Decimal(value as string);
    case "bytes":
      return Buffer.from(value as string, "base64");
    default:
      return value;
  }
}
