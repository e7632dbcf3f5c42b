import { type Counted, CountedBy } from "../parts/conventions.tsx";
import { FaultSummary, Field } from "../parts/field.tsx";
import { Side, SideTiles } from "./side.tsx";
import { ComparisonTables } from "./tables.tsx";
import { type ShownComparison, type ShownSide, sideName } from "./types.ts";

type ComparePageProps = {
  left: ShownSide;
  right: ShownSide;
  comparison: ShownComparison;
  /** As they stand in the address, for the two boxes. */
  typed: { left: string; right: string };
  counted: Counted;
};

/** Two revisions side by side: what each is, what differs in lines and in chemistry, their tiles. */
export const ComparePage = ({ left, right, comparison, typed, counted }: ComparePageProps) => (
  <article class="compare">
    <h1>
      {sideName(left)} beside {sideName(right)}
    </h1>
    <div class="compare-sides">
      <Side side={left} other={right} />
      <Side side={right} other={left} />
    </div>
    <CountedBy {...counted} />
    <ComparisonTables left={left} right={right} comparison={comparison} />
    <h2>Tiles</h2>
    <div class="compare-sides">
      <SideTiles side={left} />
      <SideTiles side={right} />
    </div>
    <h2>Compare others</h2>
    <Boxes typed={typed} faults={[]} />
  </article>
);

type BoxesProps = {
  typed: { left: string; right: string };
  faults: readonly { path: string; says: string }[];
};

/** The two boxes to say what to compare. */
export const CompareForm = (props: BoxesProps) => (
  <section>
    <h1>Compare two glazes</h1>
    <p>
      Two recipes, or two revisions of one, side by side: what differs in what you weigh, in the
      chemistry, in how they are fired and in what their tiles look like.
    </p>
    <Boxes {...props} />
  </section>
);

const Boxes = ({ typed, faults }: BoxesProps) => (
  <form method="get" action="/compare">
    <FaultSummary faults={faults} />
    {(["left", "right"] as const).map((name) => (
      <Field
        label={name === "left" ? "The one" : "Beside it"}
        name={name}
        value={typed[name]}
        fault={faults.find(({ path }) => path === name)?.says}
        hint="As in its address, slack-water; slack-water@2 is its revision 2."
        maxlength={100}
        autocomplete="off"
        required
      />
    ))}
    <p class="actions">
      <button type="submit">Compare</button>
    </p>
  </form>
);
