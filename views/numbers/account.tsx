import type { Child } from "hono/jsx";
import type { Account, Doubt } from "../../src/chem/account.ts";
import { ContributionBars } from "../charts/contribution-bars.tsx";
import { plainNumber, Quantity } from "../parts/quantity.tsx";

/** A line as the account speaks of it: its powder, and the analysis that it is worked out with. */
export type AccountLine = { key: string; name: string; analysis: string };

export type AccountProps = { account: Account; lines: readonly AccountLine[] };

/** `under` is the heading that the account stands below. */
type AccountOfProps = AccountProps & { under: "h1" | "h3" };

/** Where one number comes from: what it is, which line brings how much, and what its ± is of. */
export const AccountOf = ({ account, lines, under }: AccountOfProps) => (
  <div class="account">
    <p class="account-value">
      <Quantity {...account.quantity} /> {account.unit}
    </p>
    <p>{account.definition}</p>
    {account.brings.length > 0 ? (
      <ContributionBars
        oxides={account.brings.map(({ of, lines: shares }) => ({
          oxide: of,
          shares: shares.map(({ line, share }) => ({
            line: lines[line]?.name ?? `line ${line + 1}`,
            share,
          })),
        }))}
        of={account.name}
      />
    ) : null}
    <Heading under={under}>Worked out with</Heading>
    <ul>
      {lines.map(({ name, analysis }) => (
        <li>
          {name}: {analysis}
        </li>
      ))}
    </ul>
    <Heading under={under}>What its ± is of</Heading>
    <Doubts doubts={account.doubts} lines={lines} />
    <p class="finding-source">
      The ± is expanded, k = 2: 95 times in 100, for these powders. Oxides of one analysis are taken
      as independent; weighing is left out. Another maker's powder of the same name can differ by
      far more.
    </p>
  </div>
);

const Heading = ({ under, children }: { under: "h1" | "h3"; children?: Child }) =>
  under === "h1" ? <h2>{children}</h2> : <h4>{children}</h4>;

const shown = 5;

const Doubts = ({ doubts, lines }: { doubts: readonly Doubt[]; lines: readonly AccountLine[] }) => {
  const [largest] = doubts;
  if (!largest) return <p>It has none: nothing that it depends on is in doubt.</p>;
  const nameOf = ({ key, of }: Doubt) => {
    const name = lines.find((line) => line.key === key)?.name ?? "a powder";
    return of === "loss" ? `the loss of ${name}` : `the ${of} of ${name}`;
  };
  const rest = doubts.slice(shown).reduce((sum, { share }) => sum + share, 0);
  return (
    <>
      <p>
        {largest.share > 0.5 ? "Most" : "The largest part"} of it is {nameOf(largest)}: a better
        analysis of that would help most.
      </p>
      <ul>
        {doubts.slice(0, shown).map((doubt) => (
          <li>
            {plainNumber(100 * doubt.share, 0)} %: {nameOf(doubt)}
          </li>
        ))}
        {rest > 0.005 ? <li>{plainNumber(100 * rest, 0)} %: all others together</li> : null}
      </ul>
    </>
  );
};

type NumberPageProps = AccountProps & { title: string; back: { href: string; words: string } };

export const NumberPage = ({ title, back, account, lines }: NumberPageProps) => (
  <article>
    <h1>{title}</h1>
    <AccountOf account={account} lines={lines} under="h1" />
    <p>
      <a href={back.href}>{back.words}</a>
    </p>
  </article>
);

/** A number's name as people say it. */
export function numberWords(name: string): string {
  const [kind, which] = name.split(".");
  if (kind === "unity") return `${which} in the unity formula`;
  if (kind === "weight") return `${which}, percent by weight`;
  if (kind === "mole") return `${which}, percent by moles`;
  if (kind === "expansion") return `Expansion by the model ${which}`;
  if (kind === "loss") return "Loss on ignition";
  return kind === "alkali-share" ? "Alkali share" : "Silica to alumina";
}
