import { Day } from "../materials/day.tsx";
import { KilnCaution } from "../parts/cautions.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { pageReading, ReadingOf } from "../parts/reading.ts";
import { FamilyFront } from "./family.tsx";
import { OptionsForm } from "./options-form.tsx";
import { OwnForm, type TypedOwn } from "./own-form.tsx";
import { Piece } from "./piece.tsx";
import { Powders } from "./powders.tsx";
import type { ShownHandout } from "./types.ts";

type HandoutPageProps = {
  handout: ShownHandout;
  faults: readonly Fault[];
  /** For whoever holds a link, and may read nothing else. */
  alone: boolean;
  address: string;
  linkAt: string | null;
  back: { href: string; name: string } | null;
  revision?: number | undefined;
  asked: Readonly<Record<string, string>>;
  own: TypedOwn;
};

/** Recipes written up for readers elsewhere: in their words and measures, with what is not known. */
export const HandoutPage = (props: HandoutPageProps) => {
  const { region, temperature, weight } = props.handout;
  const reading = {
    ...pageReading(),
    ...{ region, temperature, weight: weight === "lb" ? ("lb" as const) : ("g" as const) },
    called: new Map(),
  };
  return (
    <ReadingOf.Provider value={reading}>
      <Whole {...props} />
    </ReadingOf.Provider>
  );
};

const Whole = (props: HandoutPageProps) => {
  const { handout, faults, back, alone, asked } = props;
  const { pieces, family } = handout;
  const [first] = pieces;
  return (
    <article class="handout">
      <h1>{handout.name}</h1>
      <p class="recipe-by">
        A handout of {handout.studio}, as of <Day on={handout.asOf} />
        {handout.madeAt ? (
          <>
            . The link was made <Day on={handout.madeAt} />; what stands below is of today
          </>
        ) : null}
        .
      </p>
      {alone ? (
        <p class="notice">
          Handed out by a link. Ask whoever gave it to you whether it still holds.
        </p>
      ) : null}
      <FaultSummary faults={faults} />
      <OptionsForm {...props} />
      {family || pieces.length !== 1 ? <FamilyFront handout={handout} /> : null}
      {handout.leftOut ? <p>{handout.leftOut}</p> : null}
      {pieces.map((piece) => (
        <Piece piece={piece} handout={handout} level={family ? "in a family" : "alone"} />
      ))}
      {first ? (
        <>
          <Powders handout={handout} />
          <section class="handout-firing">
            <h2>Before you fire</h2>
            <KilnCaution />
          </section>
          <OwnForm handout={handout} address={addressOf(props)} faults={faults} own={props.own} />
        </>
      ) : (
        <p>There is no recipe here that may be shown to you.</p>
      )}
      {back ? (
        <p class="actions">
          <a href={back.href}>Back to {back.name}</a>
        </p>
      ) : null}
      {props.linkAt ? (
        <MakeLink at={props.linkAt} revision={props.revision} region={asked.region ?? ""} />
      ) : null}
    </article>
  );
};

/** The page's address with what was asked of it, so that a form keeps it. */
function addressOf({ address, asked, handout }: HandoutPageProps): string {
  const query = new URLSearchParams(
    Object.entries({ ...asked, region: handout.region }).filter(([key]) => key !== "format"),
  );
  return `${address}?${query}#restated`;
}

type MakeLinkProps = { at: string; revision: number | undefined; region: string };

const MakeLink = ({ at, revision, region }: MakeLinkProps) => (
  <form class="screen-only" method="post" action={at}>
    <h2>For somebody outside</h2>
    <p>
      A link shows this handout to whoever holds it, without an account, until you end it. It stays
      with these revisions, and says how each of them stands on the day it is read.
    </p>
    {revision === undefined ? null : (
      <input type="hidden" name="revision" value={String(revision)} />
    )}
    <input type="hidden" name="region" value={region} />
    <button type="submit">Make a link</button>
  </form>
);
