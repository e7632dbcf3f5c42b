type DataProps = {
  head: { seq: number; hash: string };
  engineIsEmbedded: boolean;
  /** Whether the studio backs itself up, and when it last did. */
  backsUp: boolean;
  lastBackup: Date | null;
};

/** What a manager can take out of the studio and put in: what it is, and when which is right. */
export const DataPage = ({ head, engineIsEmbedded, backsUp, lastBackup }: DataProps) => (
  <section>
    <h1>Take it with you</h1>
    <p>
      What the studio put on record is the studio's. One file holds all of it, in a form that is
      written down, so that it can be read without this program too.
    </p>
    <p class="actions">
      <a class="button" href="/export" download>
        Download the whole library
      </a>
    </p>
    <p>
      It holds everybody's names and e-mail addresses and every private recipe. Keep it as you would
      keep the studio's keys.
    </p>

    <h2>What is in it</h2>
    <ul>
      <li>
        Recipes with every revision, materials with every analysis, tiles, tests, pictures, reports,
        firings, buckets, mixes, stock, notes, reviews, and people.
      </li>
      <li>The record of who did what and when, word for word.</li>
      <li>What was removed stays removed: no name, no words, no picture of it.</li>
    </ul>

    <h2>What is not</h2>
    <ul>
      <li>Passwords, and links to join or to set a new one.</li>
      <li>
        The links of shared revisions and handouts: that they were made is in it, and in a restored
        studio they open nothing.
      </li>
      <li>What follows from the rest, such as chemistry: it is worked out anew.</li>
    </ul>

    <h2>When to use it</h2>
    <p>
      Before the studio moves to another machine, and every few weeks besides, kept somewhere else
      than the studio itself.
    </p>
    <p>
      To start the same studio again, at the new machine, in an empty database:{" "}
      <code>npm run restore -- library.zip --manager you@example.org</code>. Everything stands as it
      stood; people set new passwords by links, and the first link is yours.
    </p>
    {engineIsEmbedded ? (
      <p>
        With <code>npm run export -- library.zip</code> the file is written at the machine itself,
        while the studio does not run: the database that it tries things out with is open to one
        program at a time.
      </p>
    ) : (
      <p>
        With <code>npm run export -- library.zip</code> the file is written at the machine itself.
      </p>
    )}

    <h2>Backups</h2>
    <p>
      A backup is the same file with what lets people in: after it everybody signs in as before.{" "}
      {backsUp ? (
        <>
          The studio writes one every day at its own machine. The last:{" "}
          {lastBackup
            ? `${lastBackup.toISOString().slice(0, 16).replace("T", " ")} UTC`
            : "none yet"}
          .
        </>
      ) : (
        <>
          This studio makes none by itself: whoever runs it sets <code>BACKUP_DIR</code>, or calls{" "}
          <code>npm run backup -- folder</code>.
        </>
      )}
    </p>

    <h2>Whether it is whole</h2>
    <p>
      A damaged file is refused before anything is written, with the place of the damage. And{" "}
      <code>npm run verify</code> checks the studio's own record. Note down its last event now, on
      paper:
    </p>
    <p>
      <code>
        {head.seq}:{head.hash}
      </code>
    </p>
    <p>
      Given to <code>npm run verify -- --last</code> later, it tells whether anything before it was
      changed or cut off.
    </p>

    <h2>The other way round</h2>
    <p>
      <a href="/imports/new">Bring in recipes and materials</a> from a file: they come as drafts
      into this studio, beside what it has.
    </p>
    <p>
      <a href="/people">People and links</a> · <a href="/studio/about">About this studio</a> ·{" "}
      <a href="/studio">How the studio is set</a>
    </p>
  </section>
);
