import type { Analysis } from "../../src/chem/analysis.ts";
import { Day } from "./day.tsx";

export type ProvenanceProps = {
  source: string;
  measuredOn: string | null;
  addedAt: Date;
  addedBy: { name: string };
  formula: string | null;
  digest: string;
  analysis: Analysis;
};

/** Where an analysis is from, and what its formula gives off in the kiln. */
export const Provenance = (props: ProvenanceProps) => (
  <>
    <dl class="tile-facts">
      <Fact name="Source">{props.source}</Fact>
      <Fact name="Measured on">
        {props.measuredOn ? <Day on={props.measuredOn} /> : "not said"}
      </Fact>
      {props.formula ? <Fact name="Worked out from">{props.formula}</Fact> : null}
      <Fact name="Added">
        <Day on={props.addedAt} /> by {props.addedBy.name}
      </Fact>
      <Fact name="Digest">
        <abbr title={props.digest}>{props.digest.slice(0, 12)}</abbr>
      </Fact>
    </dl>
    {props.analysis.givesOff ? (
      <p>
        In the kiln it gives off {props.analysis.givesOff.map(elementName).join(" and ")}. The loss
        counts all of that; part of it may stay in the glass.
      </p>
    ) : null}
  </>
);

const Fact = ({ name, children }: { name: string; children?: unknown }) => (
  <div>
    <dt>{name}</dt>
    <dd>{children}</dd>
  </div>
);

const elementName = (symbol: string): string =>
  ({ F: "fluorine", Cl: "chlorine", S: "sulphur" })[symbol] ?? symbol;
