import { type Oxide, oxides } from "../../src/chem/oxides.ts";
import { OxideName } from "./oxide.tsx";
import { Quantity } from "./quantity.tsx";
import { Wide } from "./wide.tsx";

type Formula = Readonly<Partial<Record<Oxide, number>>>;

type UnityBesideProps = {
  label: string;
  heads: readonly [string, string];
  /** What was asked for, and what came of it: moles for each mole of flux. */
  formulas: readonly [Formula, Formula];
  /** The oxides that were held to. */
  counted: readonly Oxide[];
  /** What stands for an oxide that was not held to, in place of its figure. */
  uncounted?: string;
};

/** Below this an oxide is the noise of float64. */
const unseen = 5e-7;

/** Two unity formulas of a base beside each other, oxide by oxide. */
export const UnityBeside = ({ label, heads, formulas, counted, uncounted }: UnityBesideProps) => {
  const [before, after] = formulas;
  return (
    <Wide label={label}>
      <table class="figures">
        <caption>Unity formula of the base</caption>
        <thead>
          <tr>
            <th scope="col">Oxide</th>
            {heads.map((head) => (
              <th scope="col">{head}</th>
            ))}
          </tr>
        </thead>
        <tbody>
          {oxides
            .filter((oxide) => counted.includes(oxide) || after[oxide] !== undefined)
            .filter((oxide) => Math.max(before[oxide] ?? 0, after[oxide] ?? 0) > unseen)
            .map((oxide) => (
              <tr>
                <th scope="row">
                  <OxideName oxide={oxide} />
                </th>
                <td>
                  {uncounted === undefined || counted.includes(oxide) ? (
                    <Quantity value={before[oxide] ?? 0} digits={3} />
                  ) : (
                    uncounted
                  )}
                </td>
                <td>
                  <Quantity value={after[oxide] ?? 0} digits={3} />
                </td>
              </tr>
            ))}
        </tbody>
      </table>
    </Wide>
  );
};

type Miss = { oxide: Oxide; wanted: number; got: number; because: string };

/** The oxides that are off, by how much and why. */
export const MissList = ({ misses }: { misses: readonly Miss[] }) => (
  <ul>
    {misses.map(({ oxide, wanted, got, because }) => (
      <li>
        <OxideName oxide={oxide} /> is <Quantity value={got} digits={3} /> instead of{" "}
        <Quantity value={wanted} digits={3} />. {because}
      </li>
    ))}
  </ul>
);
