import { KilnPages } from "../firings/kiln-pages.tsx";
import { type Faults, faultAt, type Typed } from "../materials/typed.ts";
import { FaultSummary, Field, TextArea } from "../parts/field.tsx";

type KilnsProps = {
  kilns: readonly { slug: string; name: string; about: string }[];
  /** Whether the reader belongs to the studio. */
  mayAdd: boolean;
  typed: Typed;
  faults: Faults;
  idempotencyKey: string;
};

/** The kilns of the studio, and the form for another. */
export const Kilns = ({ kilns, mayAdd, typed, faults, idempotencyKey }: KilnsProps) => (
  <section id="kilns">
    <h1>Kilns</h1>
    <KilnPages here="/kilns" />
    <FaultSummary faults={faults} />
    {kilns.length === 0 ? (
      <p>No kiln is on record yet. People of the studio add the first one.</p>
    ) : (
      <ul class="history">
        {kilns.map(({ slug, name, about }) => (
          <li>
            <a class="kiln-link" href={`/kilns/${slug}`}>
              {name}
            </a>
            {about === "" ? null : <span class="history-message">{about}</span>}
          </li>
        ))}
      </ul>
    )}
    {mayAdd ? (
      <>
        <h2>Add a kiln</h2>
        <form method="post" action="/kilns">
          <input type="hidden" name="idempotencyKey" value={idempotencyKey} />
          <Field
            label="Name"
            name="name"
            required
            maxlength={80}
            value={typed("name")}
            hint="Such as: Gannet. What people here call it."
            fault={faultAt(faults, "name")}
          />
          <TextArea
            label="About it"
            name="about"
            maxlength={2000}
            value={typed("about")}
            hint="Electric or flame, how large, how it fires, what it must not hold."
            fault={faultAt(faults, "about")}
          />
          <p class="actions">
            <button type="submit">Add the kiln</button>
          </p>
        </form>
      </>
    ) : null}
  </section>
);
