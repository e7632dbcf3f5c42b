import { When } from "../people/when.tsx";

type AboutProps = {
  now: Date;
  program: { version: string; chemistry: string; node: string; startedAt: Date };
  database: {
    engine: "postgres" | "embedded";
    version: string;
    bytes: number;
    tables: readonly { name: string; bytes: number }[];
  };
  holds: Readonly<Record<string, number>>;
  /** Null where the studio makes none by itself. */
  backups: { folder: string; last: LastBackup | null } | null;
  verified: { at: Date; sound: boolean } | null;
  publicUrl: string | null;
  sendsMail: boolean;
  countsRequests: boolean;
  /** Null where there is none. */
  replica: keyof typeof replicaWords | null;
};

type LastBackup = { name: string; at: Date; bytes: number; whole: boolean };

/** What a manager looks up when something is to be told, moved or mended. */
export const AboutStudio = (props: AboutProps) => (
  <section>
    <h1>About this studio</h1>
    <p>
      <a href="/studio/data">Take it with you</a> · <a href="/studio">How the studio is set</a> ·{" "}
      <a href="/people">People and links</a>
    </p>
    <h2>Backups</h2>
    <Backups backups={props.backups} now={props.now} />
    <h2>The record</h2>
    <Verified verified={props.verified} />
    <h2>The program</h2>
    <Program {...props} />
    <h2>What it holds</h2>
    <Sizes
      caption="Recipes and what belongs to them"
      rows={Object.entries(props.holds).map(([name, many]) => [name, counted.format(many)])}
    />
    <h2>The database</h2>
    <DatabaseFacts {...props.database} />
  </section>
);

const counted = new Intl.NumberFormat("en");

const sizeWords = (bytes: number): string =>
  bytes < 1e6
    ? `${Math.ceil(bytes / 1000)} kB`
    : `${counted.format(Math.round(bytes / 1e5) / 10)} MB`;

/** One a day is made; where the newest is older than two, something is in its way. */
const late = 2 * 24 * 60 * 60 * 1000;

const Backups = ({ backups, now }: Pick<AboutProps, "backups" | "now">) => {
  if (backups === null)
    return (
      <p class="caution">
        No backup is made. Whoever runs the studio sets <code>BACKUP_DIR</code>: one is written into
        that folder every day then.
      </p>
    );
  const { folder, last } = backups;
  if (last === null)
    return (
      <p class="caution">
        None yet, though one should be written into <code>{folder}</code> every day. The log says
        what is in its way.
      </p>
    );
  return (
    <>
      <p>
        The last is of <When at={last.at} clock />: <code>{last.name}</code> in{" "}
        <code>{folder}</code>, {sizeWords(last.bytes)}.{" "}
        {last.whole
          ? "It is whole: all that it lists is in it. Keep a copy of it somewhere else."
          : null}
      </p>
      {last.whole ? null : (
        <p class="caution">It is not whole, and nothing could be restored from it. Make another.</p>
      )}
      {now.getTime() - last.at.getTime() > late ? (
        <p class="caution">
          That is more than two days ago. The log says what is in the way of another.
        </p>
      ) : null}
    </>
  );
};

const Verified = ({ verified }: Pick<AboutProps, "verified">) => {
  if (verified === null)
    return (
      <p>
        It was never checked: <code>npm run verify</code> does, and this page says when it did.
      </p>
    );
  const { at, sound } = verified;
  return sound ? (
    <p>
      Last checked <When at={at} clock />, and it held.
    </p>
  ) : (
    <p class="caution">
      Last checked <When at={at} clock />, and it did not hold: <code>npm run verify</code> names
      the place.
    </p>
  );
};

const replicaWords = {
  read: "Lists are read from the replica.",
  behind: "Lists are read from the primary: the replica is too far behind.",
  away: "Lists are read from the primary: the replica does not answer.",
  "of another database":
    "Lists are read from the primary: what DATABASE_REPLICA_URL leads to is no replica of it.",
} as const;

const Program = ({ program, publicUrl, sendsMail, countsRequests, replica }: AboutProps) => (
  <ul>
    <li>
      Common Bucket {program.version}, chemistry {program.chemistry}, on Node {program.node}
    </li>
    <li>
      Started <When at={program.startedAt} clock />
    </li>
    <li>
      {publicUrl === null ? (
        <>
          Its address is not set (<code>PUBLIC_URL</code>): labels have no code to scan, and no mail
          is sent.
        </>
      ) : (
        <>People reach it at {publicUrl}</>
      )}
    </li>
    <li>{sendsMail ? "It sends mail." : "It sends no mail."}</li>
    <li>
      {countsRequests
        ? "What it counts can be read at /metrics with the token."
        : "Nobody can read what it counts: no token is set."}
    </li>
    {replica === null ? null : <li>{replicaWords[replica]}</li>}
  </ul>
);

const DatabaseFacts = ({ engine, version, bytes, tables }: AboutProps["database"]) => (
  <>
    {engine === "embedded" ? (
      <p class="caution">
        This is the embedded database, for trying out: it survives a killed process, and no power
        cut. A studio runs on Postgres.
      </p>
    ) : null}
    <p>
      Postgres {version}
      {engine === "embedded" ? ", inside the program" : ""}: {sizeWords(bytes)} in all.
    </p>
    <Sizes
      caption="Its biggest tables"
      rows={tables.map(({ name, bytes: size }) => [name.replaceAll("_", " "), sizeWords(size)])}
    />
  </>
);

const Sizes = ({ caption, rows }: { caption: string; rows: [name: string, says: string][] }) => (
  <table class="lines">
    <caption>{caption}</caption>
    <tbody>
      {rows.map(([name, says]) => (
        <tr>
          <th scope="row">{name}</th>
          <td class="number">{says}</td>
        </tr>
      ))}
    </tbody>
  </table>
);
