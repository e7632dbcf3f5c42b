export type Engine = "postgres" | "embedded";

type AboutProps = { studio: string; engine: Engine };

/** What this program is, what it runs on, and whose it is. */
export const About = ({ studio, engine }: AboutProps) => (
  <article>
    <h1>About this library</h1>
    <p>
      {studio} keeps its glazes in Common Bucket: recipes whose past versions stay as they were, the
      chemistry of each worked out from the analyses of its materials, fired tiles as evidence, and
      notes by people of the studio.
    </p>
    <h2>What it does not do</h2>
    <p>
      It informs. It says what was worked out, recorded and tested, by whom and when. It certifies
      no glaze for food, and no number here stands in for a fired tile or a laboratory's report. See{" "}
      <a href="/cautions">what to be careful with</a>.
    </p>
    <h2>What is kept about you</h2>
    <p>
      For people of the studio: a name, an e-mail address, a password that cannot be read back, and
      the browsers that are signed in. One cookie tells who is signed in; there is no other, and
      nothing is loaded from elsewhere. Whoever leaves becomes a pseudonym beside what they put on
      record.
    </p>
    <p>
      Your browser <a href="/offline">keeps the recipes that were seen last</a> for when there is no
      network, as everybody sees them, until somebody signs in or out on it.
    </p>
    <h2>What it runs on here</h2>
    <EngineWords engine={engine} />
    <h2 id="source">Source code</h2>
    <p>
      Common Bucket is free software under the GNU Affero General Public License, version 3 or
      later: you may use, study, change and share it, and whoever lets others use a changed version
      over a network gives them the source of that version. It comes without any warranty.
    </p>
    <p>
      Ask the studio for the source that it runs: a manager has it and must give it to you. The
      licence's text comes with it.
    </p>
  </article>
);

const EngineWords = ({ engine }: { engine: Engine }) =>
  engine === "postgres" ? (
    <p>The library is kept in a Postgres database.</p>
  ) : (
    <p>
      The library is kept in the embedded database, which is for trying out. It survives a program
      that is ended at a bad moment, but not a power cut: records can be lost. A studio that relies
      on its library runs it on Postgres and keeps backups.
    </p>
  );
