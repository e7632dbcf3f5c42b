import { sql } from "drizzle-orm";
import {
  check,
  index,
  integer,
  jsonb,
  pgTable,
  primaryKey,
  smallint,
  text,
  uuid,
} from "drizzle-orm/pg-core";
import { bytes, decimal, id, lengthIs, moment, oneOf, sortedText } from "./columns.ts";
import { people } from "./people.ts";
import { atmospheres } from "./recipes.ts";

export const kilns = pgTable(
  "kilns",
  {
    id: id(),
    slug: text().notNull().unique("kilns_slug_unique"),
    name: text().notNull(),
    nameKey: sortedText().notNull().unique("kilns_name_unique"),
    about: text().notNull(),
    addedBy: uuid()
      .notNull()
      .references(() => people.id),
    addedAt: moment().notNull(),
  },
  (kiln) => [
    check("kilns_slug_shape", sql`${kiln.slug} ~ '^[a-z0-9]+(-[a-z0-9]+)*$'`),
    check("kilns_slug_length", lengthIs(kiln.slug, 1, 80)),
    check("kilns_name_length", lengthIs(kiln.name, 1, 80)),
    check("kilns_about_length", lengthIs(kiln.about, 0, 2000)),
  ],
);

/** How a kiln was fired: with glaze in one of the atmospheres, or a bisque. */
export const firingKinds = [...atmospheres, "bisque"] as const;

/** A step of a programme: so many degrees an hour up or down to a temperature, then held. */
export type Segment = { celsiusPerHour: number; toCelsius: number; holdMinutes: number };

/** One firing of one kiln. Append-only. */
export const firings = pgTable(
  "firings",
  {
    id: id(),
    kilnId: uuid()
      .notNull()
      .references(() => kilns.id),
    kind: text({ enum: firingKinds }).notNull(),
    /** What it was fired for. What it came to is what its witness cones say. */
    cone: text().notNull(),
    startedAt: moment().notNull(),
    programme: jsonb().$type<Segment[]>().notNull(),
    remark: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (firing) => [
    index("firings_in_order").on(firing.startedAt, firing.id),
    check("firings_kind_known", oneOf(firing.kind, firingKinds)),
    check("firings_cone_shape", sql`${firing.cone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check("firings_remark_length", lengthIs(firing.remark, 0, 4000)),
  ],
);

/** A cone that stood beside the ware, and how far it bent. Append-only. */
export const witnessCones = pgTable(
  "witness_cones",
  {
    firingId: uuid()
      .notNull()
      .references(() => firings.id),
    position: smallint().notNull(),
    cone: text().notNull(),
    /** From upright: 0 where it did not move, 90 with its tip level with its base. */
    bendDegrees: integer().notNull(),
    place: text().notNull(),
  },
  (witness) => [
    primaryKey({ columns: [witness.firingId, witness.position] }),
    check("witness_cones_position_counts", sql`${witness.position} between 0 and 31`),
    check("witness_cones_cone_shape", sql`${witness.cone} ~ '^0?[0-9]{1,2}(½)?$'`),
    check("witness_cones_bend_possible", sql`${witness.bendDegrees} between 0 and 180`),
    check("witness_cones_place_length", lengthIs(witness.place, 0, 80)),
  ],
);

/** Readings of a firing's temperature, as one upload brought them. Append-only: the newest counts. */
export const firingLogs = pgTable(
  "firing_logs",
  {
    id: id(),
    firingId: uuid()
      .notNull()
      .references(() => firings.id),
    /** How many readings came, and how many of them are kept: doubled moments and wild ones are not. */
    received: integer().notNull(),
    kept: integer().notNull(),
    /** Pairs of minutes and °C in the order of time, few enough to draw. */
    drawn: jsonb().$type<[number, number][]>().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (log) => [
    index("firing_logs_of_firing").on(log.firingId, log.id),
    check("firing_logs_received_counts", sql`${log.received} between 1 and 2000000`),
    check("firing_logs_kept_counts", sql`${log.kept} between 1 and ${log.received}`),
    check("firing_logs_drawn_few", sql`jsonb_array_length(${log.drawn}) between 1 and 4000`),
  ],
);

/** All readings of a log, apart from it so that no list joins them: 32-bit floats, minutes and °C in turn, deflated. */
export const firingReadings = pgTable("firing_readings", {
  logId: uuid()
    .primaryKey()
    .references(() => firingLogs.id),
  packed: bytes().notNull(),
});

/** What a firing used and cost. Append-only: the newest counts. */
export const firingCosts = pgTable(
  "firing_costs",
  {
    id: id(),
    firingId: uuid()
      .notNull()
      .references(() => firings.id),
    energy: text({ enum: ["electricity", "gas", "oil", "wood"] }).notNull(),
    amount: decimal({ precision: 12, scale: 3 }).notNull(),
    unit: text({ enum: ["kWh", "m3", "kg", "l"] }).notNull(),
    price: decimal({ precision: 12, scale: 4 }),
    currency: text(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (cost) => [
    index("firing_costs_of_firing").on(cost.firingId, cost.id),
    check(
      "firing_costs_energy_known",
      sql`${cost.energy} in ('electricity', 'gas', 'oil', 'wood')`,
    ),
    check("firing_costs_unit_known", sql`${cost.unit} in ('kWh', 'm3', 'kg', 'l')`),
    check("firing_costs_amount_possible", sql`${cost.amount} between 0 and 1000000`),
    check("firing_costs_price_payable", sql`${cost.price} between 0 and 10000000`),
    check("firing_costs_currency_shape", sql`${cost.currency} ~ '^[A-Z]{3}$'`),
    check(
      "firing_costs_price_has_currency",
      sql`(${cost.price} is null) = (${cost.currency} is null)`,
    ),
  ],
);

/** A firing that was put down wrong stays on record, with the reason; its cones witness nothing. Append-only. */
export const firingWithdrawals = pgTable(
  "firing_withdrawals",
  {
    firingId: uuid()
      .primaryKey()
      .references(() => firings.id),
    why: text().notNull(),
    by: uuid()
      .notNull()
      .references(() => people.id),
    at: moment().notNull(),
  },
  (withdrawal) => [check("firing_withdrawals_why_length", lengthIs(withdrawal.why, 1, 1000))],
);
