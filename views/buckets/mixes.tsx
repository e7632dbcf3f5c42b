import type { Decimal } from "decimal.js";
import { lotWords } from "../mixes/words.ts";
import { type Fault, Field, faultAt } from "../parts/field.tsx";
import { When } from "../people/when.tsx";

type ListedMix = {
  id: string;
  baseGrams: Decimal;
  totalGrams: Decimal;
  by: { name: string };
  at: Date;
  end: { is: "finished" | "given up"; waterGrams: Decimal | null; why: string; at: Date } | null;
  used: readonly {
    material: { name: string };
    grams: Decimal;
    lot: { mark: string; supplier: string } | null;
  }[];
};

export type TypedMix = {
  grams: string;
  litres: string;
  specificGravity: string;
  scaleGrams: string;
};

export type MixesProps = {
  bucketId: string;
  /** Newest first. */
  mixes: readonly ListedMix[];
  mayMix: boolean;
  typedMix: TypedMix;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** What was mixed into a bucket, the mix that is open, and the form that opens one. */
export const Mixes = (props: MixesProps) => {
  const { mixes, mayMix } = props;
  const open = mixes.find(({ end }) => end === null);
  const done = mixes.filter(({ end }) => end !== null);
  return (
    <section id="mixes">
      <h2>Mixes</h2>
      {open ? (
        <p class="answer">
          <a href={`/mixes/${open.id}`}>A mix is open</a>: {open.totalGrams.toFixed()} g of powders,
          by {open.by.name}, <When at={open.at} clock />. Whoever is in the room can weigh with
          them.
        </p>
      ) : null}
      {mixes.length === 0 ? <p>Nothing was mixed into it here yet.</p> : null}
      {done.length > 0 ? (
        <ol class="notes">
          {done.map((mix) => (
            <PastMix mix={mix} />
          ))}
        </ol>
      ) : null}
      {mayMix && !open ? <MixForm {...props} /> : null}
    </section>
  );
};

const PastMix = ({ mix: { id, baseGrams, totalGrams, by, end, used } }: { mix: ListedMix }) => (
  <li class="note">
    <p class="note-on">
      <a href={`/mixes/${id}`}>
        {end?.is === "given up" ? "Given up" : "Mixed"}: {totalGrams.toFixed()} g of powders
      </a>
      , {baseGrams.toFixed()} g of base
      {end?.waterGrams ? `, ${end.waterGrams.toFixed()} g of water` : null}
    </p>
    {end?.why ? <p class="note-text">{end.why}</p> : null}
    {used.length > 0 ? (
      <p>
        {used
          .map(({ material, grams, lot }) => {
            const bag = lot ? lotWords(lot) : "nobody could tell which bag";
            return `${material.name} ${grams.toFixed()} g (${bag})`;
          })
          .join("; ")}
        .
      </p>
    ) : null}
    <p class="note-by">
      {by.name}, {end ? <When at={end.at} clock /> : null}
    </p>
  </li>
);

const MixForm = ({ bucketId, typedMix, faults, idempotencyKey }: MixesProps) => (
  <form method="post" action={`/buckets/${bucketId}/mixes`}>
    <h3>Mix a batch</h3>
    <p>By the weight of its base, or to make so many litres: fill in one of the two.</p>
    <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
    <Field
      label="Base to weigh"
      name="grams"
      value={typedMix.grams}
      fault={faultAt(faults, "grams") ?? faultAt(faults, "fill")}
      hint="A multiple of what the scale shows."
      inputmode="decimal"
      unit="g"
    />
    <Field
      label="Or litres of slurry to make"
      name="fill.litres"
      value={typedMix.litres}
      fault={faultAt(faults, "fill.litres")}
      inputmode="decimal"
      unit="litres"
    />
    <Field
      label="Its specific gravity"
      name="fill.specificGravity"
      value={typedMix.specificGravity}
      fault={faultAt(faults, "fill.specificGravity")}
      hint="Of the slurry, such as 1.45. Only with litres."
      inputmode="decimal"
    />
    <Field
      label="The scale shows steps of"
      name="scaleGrams"
      value={typedMix.scaleGrams}
      fault={faultAt(faults, "scaleGrams")}
      inputmode="decimal"
      unit="g"
    />
    <button type="submit">Open the mix</button>
  </form>
);
