import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import { type AskAt, Asked } from "./asked.tsx";
import { OxideName } from "./oxide.tsx";
import { Quantity } from "./quantity.tsx";
import { inOrder } from "./unity.tsx";
import { Wide } from "./wide.tsx";

type PercentTableProps = {
  weight: Chemistry["weightPercent"];
  mole: Chemistry["molePercent"];
  of?: string | undefined;
  ask?: AskAt | undefined;
};

/** The fired glass in percent, by weight and by moles. */
export const PercentTable = ({ weight, mole, of, ask }: PercentTableProps) => (
  <Wide label={of ? `The fired glass in percent: ${of}` : "The fired glass in percent"}>
    <table class="figures">
      <caption>The fired glass in percent</caption>
      <thead>
        <tr>
          <th scope="col">Oxide</th>
          <th scope="col">By weight, %</th>
          <th scope="col">By moles, %</th>
        </tr>
      </thead>
      <tbody>
        {inOrder(weight).map((oxide) => (
          <tr>
            <th scope="row">
              <OxideName oxide={oxide} />
            </th>
            <td>
              <Asked at={ask} name={`weight.${oxide}`}>
                <Quantity {...(weight[oxide] ?? nothing)} digits={2} />
              </Asked>
            </td>
            <td>
              <Asked at={ask} name={`mole.${oxide}`}>
                <Quantity {...(mole[oxide] ?? nothing)} digits={2} />
              </Asked>
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  </Wide>
);

const nothing = { value: null } as const;
