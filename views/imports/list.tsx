import { DayOf } from "../tiles/day.tsx";
import type { Brings } from "./types.ts";
import { bringsWords } from "./words.ts";

type ImportsProps = {
  imports: readonly {
    id: string;
    fileName: string;
    by: { name: string };
    at: Date;
    brought: Brings;
    takenBack: { at: Date } | null;
  }[];
  next: string | null;
};

/** The files that were taken in, newest first. */
export const ImportsPage = ({ imports, next }: ImportsProps) => (
  <section>
    <h1>Imports</h1>
    <p class="actions">
      <a class="button" href="/imports/new">
        Take in recipes or analyses
      </a>
    </p>
    {imports.length === 0 ? (
      <p>No file was taken in yet.</p>
    ) : (
      <ul>
        {imports.map(({ id, fileName, by, at, brought, takenBack }) => (
          <li>
            <a href={`/imports/${id}`}>{fileName || "A file"}</a>, <DayOf at={at} />, by {by.name}:
            brought {bringsWords(brought)}.
            {takenBack ? (
              <>
                {" "}
                <strong>Taken back</strong>, <DayOf at={takenBack.at} />.
              </>
            ) : null}
          </li>
        ))}
      </ul>
    )}
    {next ? (
      <p>
        <a class="button" href={`/imports?after=${next}`} rel="next">
          Earlier imports
        </a>
      </p>
    ) : null}
  </section>
);
