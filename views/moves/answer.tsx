import type { Finding } from "../../src/chem/chemistry-types.ts";
import { FiguresBeside, LinesBeside } from "../compare/tables.tsx";
import { differenceWords } from "../compare/words.ts";
import { Findings } from "../parts/findings.tsx";
import { OxideName } from "../parts/oxide.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";
import { MissList } from "../parts/unity-beside.tsx";
import { Wide } from "../parts/wide.tsx";
import { asWeighed } from "../restate/lines.tsx";
import { PublishForms } from "../restate/publish-forms.tsx";
import type { MovesPageProps, ShownMoved, ShownRow } from "./types.ts";

type MovedProps = {
  moved: ShownMoved;
  rows: readonly ShownRow[];
  source: MovesPageProps["recipe"] & MovesPageProps["revision"];
  member: boolean;
  idempotencyKey: string;
};

type Found = Exclude<ShownMoved, { status: "none" }>;

/** Where the moves lead: what to weigh beside what it was, and what moved with it. */
export const MovedGlaze = ({ moved, rows, source, ...asking }: MovedProps) =>
  moved.status === "none" ? (
    <section id="moved" role="status">
      <h2>Not from these powders</h2>
      <p>{moved.because} Let go of one, or tick other powders below.</p>
    </section>
  ) : (
    <section id="moved" role="status">
      <h2>{moved.status === "reached" ? "There it is" : "As near as these powders come"}</h2>
      <p>
        <strong>Not the same glaze.</strong>{" "}
        {moved.withinDoubt
          ? "Yet by the analyses it cannot be told apart from what it was: every difference is inside their ±."
          : "It starts as a draft, and nothing that was approved of the first one counts for it."}
      </p>
      {moved.stopped ? (
        <p>The search was cut off before it ended: there may be a nearer one.</p>
      ) : null}
      <LinesBeside names={names} lines={moved.changes} />
      <FormulaBeside moved={moved} rows={rows} />
      <Misses moved={moved} rows={rows} />
      <h3>Ratios, loss and expansion</h3>
      <FiguresBeside names={names} figures={moved.figures} />
      <Came of={moved.findings} what="the glaze" />
      <Came of={moved.handling} what="the powders in the room" />
      <p class="caution">
        A moved glaze is a new tile: fire one before you trust it, on a tile stand with room to run.
        Its cones, its fit and what it lets into food are all unknown until they were tested.
      </p>
      <PublishForms lines={asWeighed(moved.lines)} recipe={source} {...asking} done="moved" />
    </section>
  );

const names = { left: "Now", right: "Moved" };

const FormulaBeside = ({ moved, rows }: { moved: Found; rows: readonly ShownRow[] }) => {
  const caption = "Unity formula of the base, with the ± of the analyses";
  return (
    <Wide label={caption}>
      <table class="lines stacked-lines">
        <caption>{caption}</caption>
        <thead>
          <tr>
            <th scope="col">Oxide</th>
            <th scope="col" class="number">
              Now
            </th>
            <th scope="col" class="number">
              Moved
            </th>
            <th scope="col">What became of it</th>
          </tr>
        </thead>
        <tbody>
          {moved.differences.map((difference) => {
            const row = rows.find(({ oxide }) => oxide === difference.of);
            return (
              <tr class={row?.moved ? "compare-changed" : undefined}>
                <th scope="row">
                  <OxideName oxide={difference.of} />
                </th>
                <td class="number">
                  <Quantity {...(row?.now ?? none)} digits={3} />
                </td>
                <td class="number">
                  <Quantity {...(moved.unity[difference.of] ?? none)} digits={3} />
                </td>
                <td class="compare-words">
                  {[
                    row?.moved ? `moved to ${plainNumber(row.wanted, 3)}` : "",
                    row?.held ? "held" : "",
                  ]
                    .filter(Boolean)
                    .map((word) => `${word}, `)}
                  {differenceWords(difference)}
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </Wide>
  );
};

const none = { value: 0, plusMinus: 0 };

/** What is off beyond what a hold leaves room for, and why. */
const Misses = ({ moved, rows }: { moved: Found; rows: readonly ShownRow[] }) => {
  const within = new Map(rows.flatMap((row) => (row.held ? [[row.oxide, row.within]] : [])));
  const told = moved.misses.filter(
    ({ oxide, wanted, got }) => Math.abs(got - wanted) > (within.get(oxide) ?? 0) + leastTold,
  );
  return told.length === 0 ? null : (
    <>
      <h3>What is off from what was wanted, and why</h3>
      <MissList misses={told} />
    </>
  );
};

/** What three decimals do not print is not told. */
const leastTold = 5e-4;

type CameProps = { of: { come: readonly Finding[]; go: readonly Finding[] }; what: string };

const Came = ({ of: { come, go }, what }: CameProps) => (
  <>
    {come.length > 0 ? (
      <>
        <h3>New in what the rules say of {what}</h3>
        <Findings findings={come} />
      </>
    ) : null}
    {go.length > 0 ? (
      <>
        <h3>No longer said of {what}</h3>
        <Findings findings={go} />
      </>
    ) : null}
  </>
);
