import { Decimal } from "decimal.js";
import { plainNumber } from "../parts/quantity.tsx";

/** `name` and `uses` are null where all pay alike. */
export type Share = { name: string | null; uses: number | null; amount: Decimal };

type SharesProps = { shares: readonly Share[]; currency: string };

/** What each one pays; together it is what is printed under the powders. */
export const Shares = ({ shares, currency }: SharesProps) => (
  <section id="shares">
    <h2>Shared</h2>
    {shares.some(({ name }) => name !== null) ? (
      <ByUse shares={shares} currency={currency} />
    ) : (
      <p>{equalWords(shares, currency)}</p>
    )}
  </section>
);

const ByUse = ({ shares, currency }: SharesProps) => (
  <table class="lines">
    <caption>By how often each one used it since it was mixed, {currency}</caption>
    <thead>
      <tr>
        <th scope="col">Who</th>
        <th scope="col" class="number">
          Times
        </th>
        <th scope="col" class="number">
          Share
        </th>
      </tr>
    </thead>
    <tbody>
      {shares.map(({ name, uses, amount }) => (
        <tr>
          <th scope="row">{name}</th>
          <td class="number">{uses}</td>
          <td class="number">{plainNumber(amount, 2)}</td>
        </tr>
      ))}
    </tbody>
    <tfoot>
      <tr>
        <th scope="row">Together</th>
        <td class="number">{shares.reduce((sum, { uses }) => sum + (uses ?? 0), 0)}</td>
        <td class="number">
          {plainNumber(Decimal.sum(0, ...shares.map(({ amount }) => amount)), 2)}
        </td>
      </tr>
    </tfoot>
  </table>
);

/** Equal shares that do not come out even: so many pay a hundredth more. */
function equalWords(shares: readonly Share[], currency: string): string {
  const counts = new Map<string, number>();
  for (const { amount } of shares) {
    const printed = plainNumber(amount, 2);
    counts.set(printed, (counts.get(printed) ?? 0) + 1);
  }
  const parts = [...counts].map(([amount, many]) => `${many} × ${amount} ${currency}`);
  return `In ${shares.length} equal shares: ${parts.join(" and ")}.`;
}
