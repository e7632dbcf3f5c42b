import { KilnCaution } from "../parts/cautions.tsx";
import { FaultSummary } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import { capital, coneInFull } from "../tiles/cone-words.ts";
import { CostForm, FiringWithdrawalForm, WitnessForm } from "./changes.tsx";
import { CostOf } from "./cost.tsx";
import { Estimate } from "./estimate.tsx";
import { Fact } from "./facts.tsx";
import { kindWords } from "./firing-words.ts";
import { KilnPages } from "./kiln-pages.tsx";
import { Logged } from "./log.tsx";
import { LogForm } from "./log-form.tsx";
import { Programme } from "./programme.tsx";
import { type StoodTile, StoodTiles } from "./stood-tiles.tsx";
import type { Cost, Firing, Log, Sent } from "./types.ts";
import { WitnessCones } from "./witness.tsx";

export type FiringPageProps = {
  firing: Firing;
  tiles: readonly StoodTile[];
  log: Log | undefined;
  cost: Cost | undefined;
  /** Whether the reader may add to what is on record of it, and take it back. */
  mayAdd: boolean;
  mayWithdraw: boolean;
  energies: readonly string[];
  units: readonly string[];
  /** What was sent with one of its forms and could not be taken. */
  sent: Sent | undefined;
  /** One for each form. */
  idempotencyKeys: { witness: string; cost: string };
};

/** One firing: what it was for, what its witness cones and its readings say, and what stood in it. */
export const FiringPage = (props: FiringPageProps) => {
  const { firing, tiles, log, cost, sent, idempotencyKeys: keys } = props;
  const at = `/firings/${firing.id}`;
  const stands = firing.withdrawn === null;
  const mayAdd = props.mayAdd && stands;
  return (
    <article id="firing">
      <h1>
        Firing of {firing.kiln.name}, cone {firing.cone}
      </h1>
      <KilnPages here="/firings" />
      {firing.withdrawn ? <Withdrawn {...firing.withdrawn} /> : null}
      <FaultSummary faults={sent?.faults ?? []} />
      <Facts firing={firing} />
      {firing.remark === "" ? null : <p class="about">{firing.remark}</p>}
      <h2>What the witness cones say</h2>
      <p>
        <strong>Believe the witness cone beside the ware, not the programme.</strong>
      </p>
      <WitnessCones witness={firing.witness} known={firing.cone} />
      {mayAdd ? <WitnessForm at={at} sent={sent} idempotencyKey={keys.witness} /> : null}
      <h2>What the readings come to</h2>
      {log ? (
        <>
          <Estimate estimation={log.estimation} witness={firing.witness} />
          <Logged log={log} programme={firing.programme} all={`${at}/readings?all=1`} />
        </>
      ) : (
        <p>No readings are on record.</p>
      )}
      {mayAdd ? <LogForm at={at} sent={sent} again={log !== undefined} /> : null}
      <h2>How it was set</h2>
      <Programme programme={firing.programme} drawnAbove={log !== undefined} />
      <h2>What it used</h2>
      <CostOf cost={cost} />
      {mayAdd ? (
        <CostForm
          at={at}
          sent={sent}
          idempotencyKey={keys.cost}
          energies={props.energies}
          units={props.units}
        />
      ) : null}
      <h2>Tiles that stood in it</h2>
      <StoodTiles tiles={tiles} />
      {props.mayWithdraw && stands ? <FiringWithdrawalForm at={at} sent={sent} /> : null}
      <KilnCaution />
    </article>
  );
};

const Withdrawn = ({ why, at, by }: NonNullable<Firing["withdrawn"]>) => (
  <p class="firing-against" id="withdrawn">
    <strong>Withdrawn</strong> by {by}, <When at={at} />: {why} Its cones witness nothing, and no
    tile counts by them.
  </p>
);

const Facts = ({ firing }: { firing: Firing }) => (
  <dl class="tile-facts">
    <Fact name="Kiln">
      <a href={`/kilns/${firing.kiln.slug}`}>{firing.kiln.name}</a>
    </Fact>
    <Fact name="Kind">{kindWords(firing)}</Fact>
    <Fact name="Fired for">{capital(coneInFull(firing.cone))}</Fact>
    <Fact name="Started">
      <When at={firing.startedAt} clock />
    </Fact>
    <Fact name="Put on record by">
      {firing.by.name}, <When at={firing.at} />
    </Fact>
  </dl>
);
