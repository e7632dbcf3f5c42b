import { Decimal } from "decimal.js";
import type { GivenSheet } from "../db/bodies.ts";
import { addBody, addBodySheet } from "../db/body-adding.ts";
import type { Db } from "../db/client.ts";
import { addFiring } from "../db/firing-adding.ts";
import { addFiringCost } from "../db/firing-costs.ts";
import { addFiringLog } from "../db/firing-logs.ts";
import { addKiln } from "../db/kilns.ts";
import { type Entry, entry, known } from "./diary.ts";
import { demoReadings } from "./firing-readings.ts";
import {
  bodySource,
  type DemoBody,
  type DemoFiring,
  type DemoKiln,
  type DemoSheet,
  demoBodies,
  demoFirings,
  demoKilns,
  firingKey,
} from "./kiln.ts";

/** Bodies, kilns, and firings, each put on record the afternoon after it began. */
export const kilnEntries = (): Entry[] => [
  ...demoBodies.flatMap((body) => [
    entry(body.sheets[0].at, putBody(body)),
    ...body.sheets.slice(1).map((sheet) => entry(sheet.at, sayAnew(body, sheet))),
  ]),
  ...demoKilns.map((kiln) => entry(kiln.at, putKiln(kiln))),
  ...demoFirings.map((firing, place) => ({
    at: new Date(Date.parse(`${dayOf(firing)}T15:00:00Z`) + day + place * minute),
    happens: putFiring(firing),
  })),
];

const minute = 60_000;
const day = 24 * 60 * minute;

const dayOf = ({ startedAt }: DemoFiring): string => startedAt.slice(0, 10);

const putBody =
  ({ name, sheets: [first] }: DemoBody): Entry["happens"] =>
  async ({ db, ids, bodyIds }, at) => {
    const act = { by: known(ids, first.by), at };
    const added = await addBody(db, { name, sheet: given(first), ...act });
    if (added.kind !== "added") throw new Error(`${name} is on record twice`);
    bodyIds.set(name, added.id);
  };

const sayAnew =
  ({ name }: DemoBody, sheet: DemoSheet): Entry["happens"] =>
  async ({ db, ids, bodyIds }, at) => {
    const act = { by: known(ids, sheet.by), at };
    await addBodySheet(db, { bodyId: known(bodyIds, name), sheet: given(sheet), ...act });
  };

const putKiln =
  ({ name, about }: DemoKiln): Entry["happens"] =>
  async ({ db, ids, kilnIds }, at) => {
    const added = await addKiln(db, { name, about, by: known(ids, "ines"), at });
    if (added.kind !== "added") throw new Error(`${name} is on record twice`);
    kilnIds.set(name, added.id);
  };

const putFiring =
  (firing: DemoFiring): Entry["happens"] =>
  async ({ db, ids, kilnIds, firingIds }, at) => {
    const { kiln, kind, cone, startedAt, programme, witness, remark, by } = firing;
    const id = await addFiring(db, {
      kilnId: known(kilnIds, kiln),
      kind,
      cone,
      startedAt: new Date(startedAt),
      programme: [...programme],
      witness: [...witness],
      remark,
      by: known(ids, by),
      at,
    });
    firingIds.set(firingKey(kiln, dayOf(firing)), id);
    await putReadings(firing, { db, firingId: id, by: known(ids, by), at });
  };

/** What was read and what was used go on record with the firing. */
async function putReadings(
  firing: DemoFiring,
  { db, firingId, by, at }: { db: Db; firingId: string; by: string; at: Date },
): Promise<void> {
  const log = demoReadings(firing);
  const act = { firingId, by, at };
  await addFiringLog(db, { ...act, log, received: log.minutes.length });
  const amount = new Decimal(firing.kilowattHours);
  const price = amount.times(pricePerKilowattHour).toDecimalPlaces(2);
  await addFiringCost(db, {
    ...act,
    energy: "electricity",
    amount,
    unit: "kWh",
    price,
    currency: "GBP",
  });
}

/** Invented, as all of the demo is. */
const pricePerKilowattHour = "0.28";

const given = ({ cones: [low, high], absorption, expansion, colour, about }: DemoSheet) =>
  ({
    cones: { low, high },
    absorption: absorption ? { percent: new Decimal(absorption), source: bodySource } : null,
    expansion: expansion
      ? { ...expansion, value: new Decimal(expansion.value), source: bodySource }
      : null,
    colour,
    about,
  }) satisfies GivenSheet;
