import { Choice, Field } from "../parts/field.tsx";
import { sentences } from "./sentences.tsx";

export type AskedOfRecord = {
  who?: string | undefined;
  kind?: string | undefined;
  subject?: string | undefined;
  day?: string | undefined;
};

type RecordSearchProps = {
  asked: AskedOfRecord;
  doers: readonly { id: string; name: string }[];
  subjects: readonly string[];
};

/** Asks the record for what somebody did, for one kind of thing, or for a day. */
export const RecordSearch = ({ asked, doers, subjects }: RecordSearchProps) => (
  <search>
    <form class="narrowing" method="get" action="/events">
      <Choice
        label="Who"
        name="who"
        value={asked.who ?? ""}
        options={[
          { value: "", label: "anybody" },
          ...doers.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      <Choice
        label="What happened"
        name="kind"
        value={asked.kind ?? ""}
        options={[{ value: "", label: "anything" }, ...kindsWith(asked.kind).map(plainly)]}
      />
      <Choice
        label="To what"
        name="subject"
        value={asked.subject ?? ""}
        options={[{ value: "", label: "anything" }, ...subjects.map(plainly)]}
      />
      <Field label="On the day" name="day" type="date" value={asked.day ?? ""} />
      <button type="submit">Find</button>
    </form>
  </search>
);

const plainly = (word: string) => ({ value: word, label: word });

/** The kinds that there are words for, and the one that was asked for whatever it is. */
const kindsWith = (asked: string | undefined): string[] => {
  const known = Object.keys(sentences).map((key) => key.split(": ")[1] ?? key);
  return [...new Set(asked === undefined ? known : [...known, asked])].sort();
};
