import { type Fault, FaultSummary, Field, faultAt, idOfField } from "../parts/field.tsx";

type ForkPageProps = {
  recipe: { slug: string; name: string; owner: { name: string } };
  revision: number;
  /** Those that it has instead of the revision's; none where it keeps them. */
  lines: readonly { part: string; material: string; amount: string }[];
  message: string;
  name: string;
  faults: readonly Fault[];
  idempotencyKey: string;
};

/** A recipe of one's own that starts where another stands. */
export const ForkPage = ({
  recipe,
  revision,
  lines,
  message,
  name,
  faults,
  idempotencyKey,
}: ForkPageProps) => {
  const action = `/recipes/${recipe.slug}/forks`;
  return (
    <section>
      <h1>Fork {recipe.name}</h1>
      <p>
        You get a recipe of your own that starts as revision {revision} of {recipe.name}, with{" "}
        {lines.length > 0
          ? "the lines below and the analyses in use"
          : "the same lines and the same analyses"}
        . {recipe.owner.name}'s stays as it is, and both say where yours came from.
      </p>
      <form
        method="post"
        action={action}
        hx-post={action}
        hx-target="#main"
        hx-select="#main"
        hx-swap="outerHTML"
        data-draft={action}
      >
        <FaultSummary faults={faults} />
        <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
        <input type="hidden" name="revision" value={String(revision)} />
        {message ? <input type="hidden" name="message" value={message} /> : null}
        {lines.length > 0 ? <OtherLines lines={lines} faults={faults} /> : null}
        <Field
          label="Name of your glaze"
          name="name"
          value={name}
          fault={faults.find(({ path }) => path === "name")?.says}
          maxlength={80}
          required
          autocomplete="off"
        />
        <button type="submit">Fork it</button>
      </form>
    </section>
  );
};

const OtherLines = ({ lines, faults }: Pick<ForkPageProps, "lines" | "faults">) => (
  <table class="lines">
    <caption>Its lines</caption>
    <tbody>
      {lines.map(({ part, material, amount }, row) => (
        <tr id={idOfField(`lines.${row}.material`)}>
          <th scope="row">
            {material}
            {part === "addition" ? ", on top" : ""}
            {faultAt(faults, `lines.${row}.material`) ? (
              <span class="field-fault">{faultAt(faults, `lines.${row}.material`)}</span>
            ) : null}
            <input type="hidden" name={`lines.${row}.part`} value={part} />
            <input type="hidden" name={`lines.${row}.material`} value={material} />
            <input type="hidden" name={`lines.${row}.amount`} value={amount} />
          </th>
          <td class="number">{amount}</td>
        </tr>
      ))}
    </tbody>
  </table>
);
