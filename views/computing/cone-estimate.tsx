import type { ConeEstimation } from "../../src/chem/cone-estimate.ts";
import { type ConeTable, coneTable, coneTableIds } from "../../src/chem/cone-tables.ts";
import { sayEstimate } from "../../src/chem/cone-words.ts";
import { degreesApart, degreesInBoth } from "../parts/degrees.ts";
import { Choice, type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { pageReading } from "../parts/reading.ts";
import { EndPoints } from "./end-points.tsx";

/** `unit` is the reader's own where none was typed. */
export type TypedFiring = { readings: string; unit: string | undefined; table: string };

type Estimated = Extract<ConeEstimation, { kind: "estimate" }>;

type ConeEstimatePageProps = {
  typed: TypedFiring;
  faults: readonly Fault[];
  estimated: Estimated | undefined;
  table: ConeTable;
};

/** A firing's readings in, the cone that they came to out, for anybody; nothing is stored. */
export const ConeEstimatePage = ({ typed, faults, estimated, table }: ConeEstimatePageProps) => (
  <article>
    <h1>Which cone was it?</h1>
    <p>
      Paste what the pyrometer or the controller wrote down, and read which cone that comes to. No
      account is needed and nothing is stored. A witness cone beside the ware is the evidence; this
      is only an estimate.
    </p>
    <div class="sheet-columns">
      <form class="sheet" method="post" action="/cone-estimate#estimate">
        <FaultSummary faults={faults} />
        <TextArea
          label="Readings"
          name="readings"
          value={typed.readings}
          fault={faultAt(faults, "readings")}
          hint={`One line each: minutes since the start, then the temperature, as in “615,1222”. From at least ${degreesApart(100)} below the peak, and on until it cools.`}
          rows={10}
          autocomplete="off"
          required
        />
        <Choice
          label="Temperatures are in"
          name="unit"
          value={typed.unit ?? ownUnit()}
          fault={faultAt(faults, "unit")}
          options={[
            { value: "celsius", label: "°C" },
            { value: "fahrenheit", label: "°F" },
          ]}
        />
        <Choice
          label="Cones"
          name="table"
          value={typed.table}
          fault={faultAt(faults, "table")}
          hint="Each series has its own end points: cone 6 of one is not cone 6 of another."
          options={coneTableIds.map((value) => ({ value, label: coneTable(value).series }))}
        />
        <div class="buttons">
          <button type="submit" class="main">
            Estimate the cone
          </button>
        </div>
      </form>
      {estimated ? <Estimate estimated={estimated} series={table.series} /> : null}
    </div>
    <EndPoints table={table} />
    <p>
      Also here, for anybody: <a href="/slurry">what is in a slurry</a>, and{" "}
      <a href="/chemistry">the chemistry of a glaze</a>.
    </p>
  </article>
);

const faultAt = (faults: readonly Fault[], path: string) =>
  faults.find((fault) => fault.path === path)?.says;

const ownUnit = () => (pageReading().temperature === "C" ? "celsius" : "fahrenheit");

type EstimateProps = { estimated: Estimated; series: string };

const Estimate = ({ estimated: { estimate, told }, series }: EstimateProps) => (
  <section id="estimate" class="preview" role="status">
    <h2>
      {estimate.cone === null ? "No cone" : `Near cone ${estimate.cone}`} of the {series}
    </h2>
    <p>{sayEstimate(told, pageReading().temperature)}</p>
    <dl class="ratios">
      <Line name="Cone that went down at the least" value={estimate.lower ?? "none"} />
      <Line name="Cone that stayed up" value={estimate.upper ?? "cannot be told"} />
      <Line name="Peak" value={degreesInBoth(estimate.peakCelsius)} />
      <Line
        name={`Rate of the last ${degreesApart(100)}`}
        value={`${degreesApart(estimate.rateCelsiusPerHour)} an hour`}
      />
      <Line name="± of the estimate" value={degreesApart(estimate.plusMinus)} />
      {estimate.equivalentCelsius === null ? null : (
        <Line
          name="The cone's end point at this rate"
          value={degreesInBoth(estimate.equivalentCelsius)}
        />
      )}
    </dl>
  </section>
);

const Line = ({ name, value }: { name: string; value: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>{value}</dd>
  </div>
);
