import { idOfField, TextArea } from "../parts/field.tsx";
import { sentWith } from "./changes.tsx";
import type { Sent } from "./types.ts";

type LogFormProps = { at: string; sent: Sent | undefined; again: boolean };

const units = [
  { value: "", label: "what the heading says, else °C" },
  { value: "C", label: "°C" },
  { value: "F", label: "°F" },
];

/** Takes a firing's readings, pasted or as the file that the logger wrote. */
export const LogForm = ({ at, sent, again }: LogFormProps) => {
  const { told, open } = sentWith("readings", sent);
  const file = `${idOfField("readings")}-file`;
  const unit = told("unit").value.toUpperCase().replace("°", "").slice(0, 1);
  return (
    <details open={open}>
      <summary>{again ? "Put other readings in their place" : "Add the readings"}</summary>
      <form method="post" action={`${at}/readings`} enctype="multipart/form-data">
        {again ? <p>Those of before stay on record; the newest count.</p> : null}
        <div class="field">
          <label for={file}>The logger's file</label>
          <span class="field-hint" id={`${file}-hint`}>
            CSV, up to 1,000,000 lines and 40 MB: minutes since the start, then the temperature.
          </span>
          <input
            id={file}
            name="readings"
            type="file"
            accept=".csv,.txt,.tsv,text/csv,text/plain"
            aria-describedby={`${file}-hint`}
          />
        </div>
        <TextArea
          label="Or the readings themselves"
          {...told("readings")}
          rows={6}
          autocomplete="off"
          hint="One line each, as in “615,1222”. Apart by a comma, a semicolon or a tab; decimals with a point."
        />
        <fieldset class="firing-units">
          <legend>Temperatures are in</legend>
          {units.map(({ value, label }) => (
            <label>
              <input type="radio" name="unit" value={value} checked={value === unit} /> {label}
            </label>
          ))}
        </fieldset>
        <p class="actions">
          <button type="submit">Keep the readings</button>
        </p>
      </form>
    </details>
  );
};
