import { ReportButtons } from "../buckets/report-buttons.tsx";
import { Mark, markMeans } from "../labels/mark.tsx";
import { type Fault, FaultSummary } from "../parts/field.tsx";
import { TilePhoto, viewingOf } from "../tiles/photo.tsx";
import { Dangers } from "./dangers.tsx";
import { HowTo } from "./how-to.tsx";
import { Overlaps } from "./overlaps.tsx";
import type { ShownScan } from "./types.ts";
import { UsedIt } from "./used-it.tsx";

type ScanPageProps = ShownScan & {
  what: string;
  faults: readonly Fault[];
  /** Makes a key for a form, so that a double tap counts once. */
  newKey: () => string;
};

/** What whoever stands before a bucket asks, in the order in which they ask it. */
export const ScanPage = (props: ScanPageProps) => {
  const { bucket, forVisitor, mark } = props;
  return (
    <article class="scan">
      <h1>{bucket.name}</h1>
      <FaultSummary faults={props.faults} />
      <section id="mug">
        <h2>May I use it on a mug?</h2>
        <p class="answer">{answers[mark]}</p>
        <p>
          <Mark mark={mark} /> {mark === "do not use" ? null : markMeans[mark]}
        </p>
        {props.because.map((says) => (
          <p>{says}</p>
        ))}
        {mark === "functional" ? <Checked /> : null}
      </section>
      {forVisitor ? null : <UsedIt {...props} idempotencyKey={props.newKey()} />}
      <HowTo {...props} />
      <Dangers {...props} />
      <Overlaps bucket={bucket} pairs={props.pairs} />
      <Looks tiles={props.tiles} />
      <section>
        <h2>Ask, and read more</h2>
        <p>
          Ask{" "}
          {forVisitor
            ? "a manager of the studio"
            : props.card.directions?.ask || "a manager of the studio"}
          .
        </p>
        <ul class="scan-links">
          <li>
            <a href={`/recipes/${bucket.recipe.slug}/revisions/${bucket.number}`}>
              The recipe: {bucket.recipe.name}, revision {bucket.number}
            </a>
          </li>
          {forVisitor ? null : (
            <li>
              <a href={`/buckets/${bucket.id}`}>All of this bucket</a>
            </li>
          )}
        </ul>
      </section>
      {forVisitor || mark === "empty" ? null : (
        <ReportButtons bucketId={bucket.id} idempotencyKey={props.newKey()} />
      )}
    </article>
  );
};

const answers = {
  functional: "Yes, by itself.",
  decorative: "No: it is decorative only.",
  test: "No: it is for trying out.",
  "do not use": "No. Do not use this bucket.",
  empty: "No: it is empty.",
} as const;

const Checked = () => (
  <p>
    A reviewer of this studio approved it for functional ware on its tiles and tests. They hold for
    the pieces tested, fired as they were; nobody here certifies a glaze for food.
  </p>
);

const Looks = ({ tiles }: Pick<ShownScan, "tiles">) => (
  <section>
    <h2>What it looks like</h2>
    {tiles.length === 0 ? (
      <p>There is no picture of it on a body of the studio yet.</p>
    ) : (
      <ul class="tile-pictures">
        {tiles.map(({ id, cone, body, photos }) => {
          const photo = photos.find(({ removed }) => !removed);
          const says = `On ${body?.name ?? "an unnamed body"}, cone ${cone}`;
          return photo ? (
            <li>
              <TilePhoto
                photo={photo}
                instead={says}
                sizes="(min-width: 40rem) 16rem, 92vw"
                leadsTo={viewingOf(id, photo)}
              />
              <a href={`/tiles/${id}`}>{says}</a>
            </li>
          ) : null;
        })}
      </ul>
    )}
  </section>
);
