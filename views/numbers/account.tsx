import type { Child } from "hono/jsx";
import type { Account, FigureUsed } from "../../src/chem/account.ts";
import { type Counted, CountedBy } from "../parts/conventions.tsx";
import { Quantity } from "../parts/quantity.tsx";
import { Doubts, figureWords } from "./doubts.tsx";
import { Shares } from "./shares.tsx";
import { nameOfLine, numberWords } from "./words.ts";

export { numberWords } from "./words.ts";

/** A line as the account speaks of it: its powder, and the analysis that it is worked out with. */
export type AccountLine = { name: string; analysis: string; href?: string | undefined };

export type AccountProps = { account: Account; lines: readonly AccountLine[] };

/** `under` is the heading that the account stands below. */
type AccountOfProps = AccountProps & { under: "h1" | "h3" };

/** Where one number comes from: what it is, which line brings how much, and what its ± is of. */
export const AccountOf = ({ account, lines, under }: AccountOfProps) => {
  const names = lines.map(({ name }) => name);
  const nameOf = (line: number) => nameOfLine(names, line);
  const of = numberWords(account.name);
  return (
    <div class="account">
      <p class="account-value">
        <Quantity {...account.quantity} /> {account.unit}
      </p>
      <p>{account.definition}</p>
      {account.brings.length > 0 ? (
        <>
          <Heading under={under}>Which line brings how much</Heading>
          <p>{sidesSay(account)}</p>
          <Shares brings={account.brings} nameOf={nameOf} of={of} />
        </>
      ) : null}
      <Heading under={under}>The analyses it is worked out with</Heading>
      <ul class="account-lines">
        {lines.map((line, place) => (
          <Line
            line={line}
            name={nameOf(place)}
            figures={account.figures.filter((figure) => figure.line === place)}
          />
        ))}
      </ul>
      <p>Percents are of the powder as weighed.</p>
      <Heading under={under}>What its ± is of</Heading>
      <Doubts account={account} nameOf={nameOf} of={of} />
      <p>
        It is the ± of the powders named here, by the analyses named here, and of no others: another
        feldspar in place of one moves potash and soda far more than any ±.
      </p>
      <Heading under={under}>How it is counted</Heading>
      <ul>
        {account.counted.map((says) => (
          <li>{says}</li>
        ))}
      </ul>
    </div>
  );
};

const Heading = ({ under, children }: { under: "h1" | "h3"; children?: Child }) =>
  under === "h1" ? <h2>{children}</h2> : <h4>{children}</h4>;

const sidesSay = ({ brings }: Account): string => {
  const [above, below] = brings;
  const moles = brings.some(({ measure }) => measure === "moles");
  const read = moles ? " Moles are those of the batch with its parts read as grams." : "";
  return `Counted is the ${above?.of}; it is divided by the ${below?.of}.${read}`;
};

type LineProps = { line: AccountLine; name: string; figures: readonly FigureUsed[] };

const Line = ({ line: { analysis, href }, name, figures }: LineProps) => (
  <li>
    {href ? <a href={href}>{name}</a> : <strong>{name}</strong>}
    {figures.length > 0 ? <>: {figures.map(figureWords).join(", ")}</> : null}
    <span class="reading-says">{analysis}</span>
  </li>
);

type NumberPageProps = AccountProps & {
  title: string;
  back: { href: string; words: string };
  /** The engine that worked out what is stored, where today's is another. */
  storedBy: string | undefined;
  counted: Counted;
};

export const NumberPage = (props: NumberPageProps) => {
  const { title, back, account, lines, storedBy, counted } = props;
  return (
    <article>
      <h1>{title}</h1>
      <CountedBy {...counted} />
      <AccountOf account={account} lines={lines} under="h1" />
      {storedBy === undefined ? null : (
        <p>
          Worked out today, by chemistry engine {account.engine}. The recipe's page shows what
          engine {storedBy} stored, which may be another number.
        </p>
      )}
      <p>
        <a href={back.href}>{back.words}</a>
      </p>
    </article>
  );
};
