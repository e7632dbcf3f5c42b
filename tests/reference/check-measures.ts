import { Decimal } from "decimal.js";
import { coneEstimate } from "../../src/chem/cone-estimate.ts";
import { type ConeTableId, coneTable, selfSupporting } from "../../src/chem/cone-tables.ts";
import { slurryOf } from "../../src/chem/slurry.ts";
import { firing } from "../chem/firings.ts";
import type { Check, CheckFamily } from "./check-family.ts";
import printed from "./cone-temperatures.json" with { type: "json" };
import slurries from "./slurry.json" with { type: "json" };

type Rated = { cone: string; value: Record<string, number | null>; how: Record<string, string> };
type Plain = { cone: string; value: number };
const rows = <Row>(beginning: string): Row[] =>
  (printed as { table: string }[]).filter(({ table }) => table.startsWith(beginning)) as Row[];

/** A steady firing to a printed end point: what the estimate makes of it. */
function hit(table: ConeTableId, cone: string, rate: number, celsius: number): Check {
  const estimation = coneEstimate(firing({ peak: celsius, rate }), coneTable(table));
  const estimate = estimation.kind === "estimate" ? estimation.estimate : undefined;
  const found = estimate?.cone === cone ? (estimate.equivalentCelsius ?? Number.NaN) : Number.NaN;
  return {
    what: `cone ${cone} at ${rate} °C/h, ${celsius} °C`,
    tolerance: 1,
    deviation: found - celsius,
  };
}

const current: CheckFamily = {
  name: "End points of self-supporting cones",
  source: selfSupporting.source,
  how: "looked up; cones 07 to 10 in °F and converted",
  unit: "°C, of the cone estimated from a steady firing to it",
  checks: rows<Rated>("large self")
    .filter(({ cone }) => !cone.includes("."))
    .flatMap(({ cone, value, how }) =>
      ["15", "60", "150"].flatMap((rate) =>
        value[rate] && how[rate]?.startsWith("looked up")
          ? hit("self-supporting", cone, Number(rate), value[rate])
          : [],
      ),
    ),
  leftOut:
    "Cones 11, 12 and 14, and 15 °C/h from cone 07 up, are from memory and no check. Half cones are not held.",
};

const older: CheckFamily = {
  name: "End points of large cones, older table",
  source: coneTable("older-large").source,
  how: "looked up",
  unit: "°C, of the cone estimated from a steady firing to it",
  checks: rows<Plain>("OLDER").map(({ cone, value }) => hit("older-large", cone, 150, value)),
};

const seger: CheckFamily = {
  name: "End points of Seger cones",
  source: coneTable("seger-1896").source,
  how: "looked up",
  unit: "°C",
  checks: rows<Plain>("Seger-Kegel historical").map(({ cone, value }) => ({
    what: cone,
    tolerance: 0,
    deviation:
      (coneTable("seger-1896").rows.find((row) => row.cone === cone)?.endPoints[0]?.celsius ??
        Number.NaN) - value,
  })),
  leftOut: "The print has 1400 °C for SK 13, a slip in a series of 20 °C: 1390 is held.",
};

const slurry = (gravity: number, dry = 2.65) =>
  slurryOf({
    specificGravity: new Decimal(gravity),
    drySpecificGravity: new Decimal(dry),
    litres: new Decimal(1),
  });

type Sum = { id: string; input: { P_oz: number; S: number }; percent_solids: number };
const isSum = (record: object): record is Sum => "percent_solids" in record;
type Degrees = { id: string; value: { SG: number; Tw: number } };
const isTwaddell = (record: object): record is Degrees =>
  "id" in record && String(record.id).startsWith("twaddell-ex");

const brongniart: CheckFamily = {
  name: "Dry content of a slurry",
  source: "A. Brongniart, Traité des arts céramiques, 1844: W = (P − 20) S/(S − 1)",
  how: "relation from memory, sums computed",
  unit: "percent of the weight",
  checks: (slurries as object[]).filter(isSum).map(({ input: { P_oz, S }, percent_solids }) => ({
    what: `a pint of ${P_oz} oz, powder of ${S}`,
    tolerance: 0.0005,
    deviation: slurry(P_oz / 20, S).drySharePercent - percent_solids,
  })),
};

const twaddell: CheckFamily = {
  name: "Degrees Twaddell",
  source: "a handbook of about 1900 whose title was not noted, p. 19",
  how: "looked up",
  unit: "°Tw",
  checks: (slurries as object[]).filter(isTwaddell).map(({ value: { SG, Tw } }) => ({
    what: `specific gravity ${SG}`,
    tolerance: 1e-9,
    deviation: slurry(SG).twaddell - Tw,
  })),
};

const baumeChecks: Record<string, number> =
  slurries.find(({ id }) => id === "baume-heavy")?.check ?? {};

const baume: CheckFamily = {
  name: "Degrees Baumé, modulus 145",
  source: "US Bureau of Standards, Circular 19",
  how: "looked up",
  unit: "°Bé",
  checks: Object.entries(baumeChecks).map(([name, degrees]) => {
    const gravity = Number(name.replace("SG_", "").replace("_", "."));
    return {
      what: `specific gravity ${gravity}`,
      tolerance: 0.0005,
      deviation: slurry(gravity).baume - degrees,
    };
  }),
  leftOut: "66 °Bé for 1.842 belongs to another modulus.",
};

export const measureChecks: readonly CheckFamily[] = [
  current,
  older,
  seger,
  brongniart,
  twaddell,
  baume,
];
