import { bandWords } from "../../src/chem/bands.ts";
import { GravityLog } from "../charts/gravity-log.tsx";
import { When } from "../people/when.tsx";
import type { ShownCare, ShownReading } from "./care-types.ts";
import { ReadingForm, type ReadingFormProps } from "./reading-form.tsx";
import { ReadingTable } from "./reading-table.tsx";

type ReadingsProps = ReadingFormProps & {
  care: ShownCare;
  /** Whether there is anything in it to measure. */
  isEmpty: boolean;
};

/** How a bucket is: what to do now, how it went, and the form for what was measured. */
export const Readings = ({ care, isEmpty, ...form }: ReadingsProps) => {
  const { readings, directions, advice, powders } = care;
  const measured = readings.find(({ specificGravity }) => specificGravity !== null);
  return (
    <section id="readings">
      <h2>How is it?</h2>
      {directions?.gravity ? (
        <p>
          It should have a gravity of {bandWords(directions.gravity)}
          {directions.flow ? ` and flow for ${bandWords(directions.flow)} s` : ""}.
        </p>
      ) : null}
      {measured ? (
        <p>
          Last measured by {measured.by}, <When at={measured.at} clock />: gravity{" "}
          {measured.specificGravity?.toFixed()}
          {measured.flowSeconds ? `, flow ${measured.flowSeconds.toFixed()} s` : ""}.
        </p>
      ) : (
        <p>Nobody has measured it yet.</p>
      )}
      {advice && !isEmpty ? (
        <div class={advice.kind === "right" ? undefined : "to-do"}>
          {advice.says.map((says) => (
            <p class="answer">{says}</p>
          ))}
          {advice.cautions.length > 0 ? (
            <div class="caution">
              {advice.cautions.map((says) => (
                <p>{says}</p>
              ))}
            </div>
          ) : null}
        </div>
      ) : null}
      <LogOf readings={readings} directions={directions} />
      {readings.length > 0 ? <ReadingTable readings={readings.slice(0, 10)} /> : null}
      {measured?.dry ? (
        <p>
          {powders.dryGravity.says} {measured.dry.says}
        </p>
      ) : null}
      {readings.length > 10 || care.furtherReadings ? (
        <p>
          <a href={`/buckets/${form.bucketId}/readings`}>All its readings</a>
        </p>
      ) : null}
      {isEmpty ? null : <ReadingForm {...form} />}
    </section>
  );
};

type LogOfProps = {
  readings: readonly ShownReading[];
  directions: ShownCare["directions"];
};

/** The readings drawn, where there is anything to draw. */
export const LogOf = ({ readings, directions }: LogOfProps) => {
  const points = readings
    .filter(({ specificGravity, flowSeconds }) => specificGravity || flowSeconds)
    .map(({ at, specificGravity, flowSeconds, stirred }) => ({
      at,
      gravity: specificGravity?.toNumber() ?? null,
      flow: flowSeconds?.toNumber() ?? null,
      stirred,
    }))
    .reverse();
  if (!points.some(({ gravity }) => gravity !== null)) return null;
  return (
    <figure>
      <GravityLog
        points={points}
        gravity={directions?.gravity ?? null}
        flow={directions?.flow ?? null}
      />
      <figcaption>A hollow point was not stirred, and says nothing of the bucket.</figcaption>
    </figure>
  );
};
