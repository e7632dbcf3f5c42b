import type { ConeEstimate } from "../../src/chem/cone-estimate.ts";
import {
  type ConeTable,
  coneTable,
  coneTableIds,
  toFahrenheit,
} from "../../src/chem/cone-tables.ts";
import { Choice, type Fault, FaultSummary, TextArea } from "../parts/field.tsx";
import { plainNumber } from "../parts/quantity.tsx";
import { EndPoints } from "./end-points.tsx";

export type TypedFiring = { readings: string; unit: string; table: string };

type ConeEstimatePageProps = {
  typed: TypedFiring;
  faults: readonly Fault[];
  estimate: ConeEstimate | undefined;
  table: ConeTable;
};

/** A firing's readings in, the cone that they came to out, for anybody; nothing is stored. */
export const ConeEstimatePage = ({ typed, faults, estimate, table }: ConeEstimatePageProps) => (
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
          hint="One line each: minutes since the start, then the temperature, as in “615,1222”. From at least 100 °C below the peak, and on until it cools."
          rows={10}
          autocomplete="off"
          required
        />
        <Choice
          label="Temperatures are in"
          name="unit"
          value={typed.unit}
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
      {estimate ? <Estimate estimate={estimate} series={table.series} /> : null}
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

const Estimate = ({ estimate, series }: { estimate: ConeEstimate; series: string }) => (
  <section id="estimate" class="preview" role="status">
    <h2>
      {estimate.cone === null ? "No cone" : `Near cone ${estimate.cone}`} of the {series}
    </h2>
    <p>{estimate.says}</p>
    <dl class="ratios">
      <Line name="Cone that went down at the least" value={estimate.lower ?? "none"} />
      <Line name="Cone that stayed up" value={estimate.upper ?? "cannot be told"} />
      <Line name="Peak" value={degrees(estimate.peakCelsius)} />
      <Line
        name="Rate of the last 100 °C"
        value={`${plainNumber(estimate.rateCelsiusPerHour, 0)} °C an hour`}
      />
      <Line name="± of the estimate" value={`${estimate.plusMinus} °C`} />
      {estimate.equivalentCelsius === null ? null : (
        <Line
          name="The cone's end point at this rate"
          value={degrees(estimate.equivalentCelsius)}
        />
      )}
    </dl>
  </section>
);

const degrees = (celsius: number): string =>
  `${plainNumber(celsius, 0)} °C (${plainNumber(toFahrenheit(celsius), 0)} °F)`;

const Line = ({ name, value }: { name: string; value: string }) => (
  <div>
    <dt>{name}</dt>
    <dd>{value}</dd>
  </div>
);
