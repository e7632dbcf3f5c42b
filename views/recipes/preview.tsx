import type { Chemistry } from "../../src/chem/chemistry-types.ts";
import { AccountOf, type AccountProps, numberWords } from "../numbers/account.tsx";
import { ChemistryTables } from "../parts/chemistry.tsx";

/** How one typed line is read, before it counts. */
export type LineRead = {
  row: number;
  typed: string;
  /** The material it means, or undefined where that has to be chosen or is unknown. */
  material: { slug: string; name: string } | undefined;
  /** The analysis it is worked out with, or what is open. */
  says: string;
  choices: readonly { slug: string; name: string; because: string }[];
};

export type PreviewProps = {
  lines: readonly LineRead[];
  chemistry: Chemistry | undefined;
  /** What still keeps the chemistry from being worked out. */
  waitsFor: readonly string[];
  /** The number that was asked where it comes from. */
  asked?: AccountProps | undefined;
};

/** What the lines come to as they stand: how each is read, and the chemistry where all are clear. */
export const Preview = ({ lines, chemistry, waitsFor, asked }: PreviewProps) => (
  <section id="preview" class="preview">
    <h2>As it stands</h2>
    {asked ? <Answer {...asked} /> : null}
    {lines.length === 0 ? (
      <p>
        Type a material and an amount, and its chemistry appears here. Nothing is stored until you
        publish.
      </p>
    ) : (
      <ol class="readings">
        {lines.map((line) => (
          <Reading line={line} />
        ))}
      </ol>
    )}
    <div role="status">
      {waitsFor.map((says) => (
        <p class="waits">{says}</p>
      ))}
    </div>
    {chemistry ? (
      <ChemistryTables
        ask="form"
        chemistry={chemistry}
        lineNames={lines.map(({ typed, material }) => material?.name ?? typed)}
      />
    ) : null}
  </section>
);

/** The form comes back as a whole, so the answer is what the reader is led to, without script too. */
const Answer = (asked: AccountProps) => (
  <section class="answer-to-asked">
    <h3 id="asked-number" tabindex={-1} autofocus>
      {numberWords(asked.account.name)}
    </h3>
    <AccountOf {...asked} under="h3" />
  </section>
);

const Reading = ({ line }: { line: LineRead }) => (
  <li>
    <span class="reading-typed">{line.typed}</span>
    {line.material ? (
      <>
        {" is "}
        <a href={`/materials/${encodeURIComponent(line.material.slug)}`}>{line.material.name}</a>
      </>
    ) : null}
    <span class="reading-says">{line.says}</span>
    {line.choices.length > 0 ? (
      <ul class="choices">
        {line.choices.map(({ slug, name, because }) => (
          <li>
            <button type="submit" name="change" value={`choose-${line.row}-${slug}`}>
              {name}
            </button>{" "}
            {because}
          </li>
        ))}
      </ul>
    ) : null}
  </li>
);
