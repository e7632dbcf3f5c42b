import { expect, it } from "vitest";
import { Choice, FaultSummary, Field, idOfField, TextArea } from "../../views/parts/field.tsx";

const idsIn = (page: string) => [...page.matchAll(/ id="([^"]+)"/g)].map(([, id]) => id);
const allIn = (page: string, attribute: string) =>
  [...page.matchAll(new RegExp(`${attribute}="([^"]+)"`, "g"))].flatMap(
    ([, ids]) => ids?.split(" ") ?? [],
  );

const form = String(
  <form>
    <FaultSummary
      faults={[
        { path: "name", says: "Give the glaze a name." },
        { path: "lines.0.amount", says: "Line 1: write a number." },
        { path: "about", says: "Shorten what you say of it." },
        { path: "surface", says: "Choose a surface." },
      ]}
    />
    <Field label="Name" name="name" hint="As on the bucket." fault="Give the glaze a name." />
    <Field label="Amount" name="lines[0][amount]" unit="parts" fault="Write a number." />
    <TextArea label="About" name="about" fault="Shorten it." />
    <Choice label="Surface" name="surface" options={[]} fault="Choose one." />
  </form>,
);

it("leads from every fault to a field that is there", () => {
  const targets = allIn(form, "href").map((href) => href.replace("#", ""));

  expect(targets).toHaveLength(4);
  expect(idsIn(form)).toEqual(expect.arrayContaining(targets));
});

it("ties each field to its fault, hint and unit", () => {
  const described = allIn(form, "aria-describedby");

  expect(described).toHaveLength(6);
  expect(idsIn(form)).toEqual(expect.arrayContaining(described));
  expect(form.match(/aria-invalid="true"/g)).toHaveLength(4);
});

it("labels every control", () => {
  const labelled = allIn(form, " for");

  expect(labelled).toHaveLength(4);
  expect(idsIn(form)).toEqual(expect.arrayContaining(labelled));
});

it("gives a fault's path and a form's own way of writing it the same id", () => {
  expect(idOfField("lines[0][amount]")).toBe(idOfField("lines.0.amount"));
  expect(idOfField("lines.0.amount")).toBe("field-lines.0.amount");
});

it("says a fault of the whole form without a link, and nothing where nothing is wrong", () => {
  const whole = String(<FaultSummary faults={[{ path: "", says: "The base adds up to 0." }]} />);

  expect(whole).toContain("<li>The base adds up to 0.</li>");
  expect(
    String(
      <div>
        <FaultSummary faults={[]} />
      </div>,
    ),
  ).toBe("<div></div>");
});

it("keeps what was typed, escaped", () => {
  const field = String(<Field label="Name" name="name" value={'"><script>'} />);
  const area = String(<TextArea label="About" name="about" value="</textarea><b>" />);

  expect(field).toContain('value="&quot;&gt;&lt;script&gt;"');
  expect(area).not.toContain("</textarea><b>");
});

it("chooses what was chosen before", () => {
  const choice = String(
    <Choice
      label="Surface"
      name="surface"
      value="satin"
      options={[
        { value: "gloss", label: "Gloss" },
        { value: "satin", label: "Satin" },
      ]}
    />,
  );

  expect(choice.match(/<option[^>]*selected[^>]*>/g)).toEqual([
    '<option value="satin" selected="">',
  ]);
});
