import { TextArea } from "../parts/field.tsx";

/** A box for the lines of a recipe as text, which a button reads into the rows. */
export const Pasting = ({ pasted, fault }: { pasted: string; fault: string | undefined }) => (
  <details class="pasting" open={pasted !== ""}>
    <summary>Paste lines as text</summary>
    <TextArea
      label="Lines of a recipe"
      name="pasted"
      value={pasted}
      fault={fault}
      hint="One line each: “Potash feldspar 40”. Begin additions with +, or put them under a row that says “Additions”."
      rows={6}
    />
    <button type="submit" name="change" value="read-text">
      Read into the rows
    </button>
  </details>
);
