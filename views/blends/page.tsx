import type { BlendKind } from "../../src/chem/blends.ts";
import { firstThatMoves, shownValues } from "../../src/chem/trial-values.ts";
import type { Faults, Typed } from "../materials/typed.ts";
import { DustCaution } from "../parts/cautions.tsx";
import { BlendForm, BlendKinds } from "./form.tsx";
import { PointTable, type ShownPoint } from "./points.tsx";
import { stopsWords } from "./screen.tsx";
import { kindWords } from "./words.ts";

export type BlendPageProps = {
  kind: BlendKind;
  typed: Typed;
  faults: Faults;
  points: readonly ShownPoint[];
  materialNames: readonly string[];
  mayKeep: boolean;
  idempotencyKey: string;
};

/** A blend in, its points out with the chemistry of each, for anybody; nothing is stored. */
export const BlendPage = ({ points, ...props }: BlendPageProps) => {
  const chemistries = points.map(({ chemistry }) => chemistry);
  const value = firstThatMoves(shownValues(chemistries), chemistries);
  const { name, says } = kindWords[props.kind];
  return (
    <article>
      <h1>Blends</h1>
      <BlendKinds kind={props.kind} />
      <p>
        {name}: {says}. Each point is worked out before anybody weighs it; nothing is stored.{" "}
        {props.mayKeep ? <a href="/trials">The studio's trials</a> : null}
      </p>
      <BlendForm {...props} />
      {value && points.length > 0 ? (
        <section id="points" role="status">
          <h2>{points.length} points</h2>
          <p>{stopsWords(points.map(({ chemistry }) => chemistry))}</p>
          <PointTable kind={props.kind} points={points} value={value} />
        </section>
      ) : null}
      <DustCaution />
    </article>
  );
};
