import { Decimal } from "decimal.js";
import { Wide } from "../parts/wide.tsx";
import { When } from "../people/when.tsx";
import { gramsWords, moveWords } from "./words.ts";

export type ShownMove = {
  id: string;
  grams: Decimal;
  because: keyof typeof moveWords;
  why: string;
  by: string;
  at: Date;
  left: Decimal;
  mix: { id: string; bucket: { id: string; name: string } } | null;
};

type MovesProps = {
  /** Newest first. */
  moves: readonly ShownMove[];
  lot: { grams: Decimal; at: Date; by: { name: string } };
};

/** Everything that made a lot more or less, with what was left by record. */
export const Moves = ({ moves, lot }: MovesProps) => {
  const caption = "What it went through, newest first";
  return (
    <section id="moves">
      <h2>Where it went</h2>
      <Wide label={caption}>
        <table class="lines stacked-lines lot-moves">
          <caption>{caption}</caption>
          <thead>
            <tr>
              <th scope="col">What</th>
              <th scope="col" class="number">
                By how much
              </th>
              <th scope="col" class="number">
                Left
              </th>
            </tr>
          </thead>
          <tbody>
            {moves.map((move) => (
              <MoveRow move={move} />
            ))}
            <tr>
              <th scope="row">
                Bought
                <span class="line-analysis">
                  {lot.by.name}, <When at={lot.at} />
                </span>
              </th>
              <td class="number" data-head="By how much">
                {signed(lot.grams)}
              </td>
              <td class="number" data-head="Left">
                {gramsWords(lot.grams)}
              </td>
            </tr>
          </tbody>
        </table>
      </Wide>
    </section>
  );
};

const MoveRow = ({ move }: { move: ShownMove }) => (
  <tr>
    <th scope="row">
      {move.mix ? (
        <>
          <a href={`/mixes/${move.mix.id}`}>{moveWords[move.because]}</a> for{" "}
          <a href={`/buckets/${move.mix.bucket.id}`}>{move.mix.bucket.name}</a>
        </>
      ) : (
        moveWords[move.because]
      )}
      {move.why === "" ? null : <span class="line-analysis">{move.why}</span>}
      <span class="line-analysis">
        {move.by}, <When at={move.at} clock />
      </span>
    </th>
    <td class="number" data-head="By how much">
      {signed(move.grams)}
    </td>
    <td class="number" data-head="Left">
      {gramsWords(move.left)}
    </td>
  </tr>
);

const signed = (grams: Decimal): string =>
  grams.isPositive() && !grams.isZero() ? `+${gramsWords(grams)}` : gramsWords(grams);

/** The mixes that some of a lot is in, taken together, and their buckets. */
export const WentInto = ({ moves }: Pick<MovesProps, "moves">) => {
  const mixes = mixesOf(moves);
  return mixes.length === 0 ? null : (
    <section id="in">
      <h2>What it is in</h2>
      <ul>
        {mixes.map(({ id, bucket, grams }) => (
          <li>
            {gramsWords(grams)} in <a href={`/buckets/${bucket.id}`}>{bucket.name}</a>, by{" "}
            <a href={`/mixes/${id}`}>this mix</a>
          </li>
        ))}
      </ul>
    </section>
  );
};

type MixOfLot = NonNullable<ShownMove["mix"]> & { grams: Decimal };

/** What each mix holds of a lot now, without what was taken back; newest first. */
export function mixesOf(moves: readonly ShownMove[]): MixOfLot[] {
  const found = new Map<string, MixOfLot>();
  for (const { mix, grams } of moves) {
    if (!mix) continue;
    const before = found.get(mix.id)?.grams ?? new Decimal(0);
    found.set(mix.id, { ...mix, grams: before.minus(grams) });
  }
  return [...found.values()].filter(({ grams }) => grams.gt(0));
}
