import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import type { Role } from "./roles.ts";

type JoinProps = {
  studio: string;
  invite: string;
  role: Role;
  name?: string | undefined;
  email?: string | undefined;
  faults?: readonly Fault[] | undefined;
};

/** Joining by a link: the role came with it and is not asked for. */
export const Join = ({ studio, invite, role, name, email, faults = [] }: JoinProps) => (
  <section>
    <h1>Join {studio}</h1>
    <FaultSummary faults={faults} />
    <p>
      This link makes you a {role} of the studio. It works once. Your name stands beside what you
      put on record; your e-mail is for signing in and is shown to nobody but you.
    </p>
    <form method="post" action="/people">
      <input type="hidden" name="invite" value={invite} />
      <Field
        label="Name"
        name="name"
        value={name}
        required
        autocomplete="name"
        maxlength={80}
        hint="As people in the studio know you."
        fault={says(faults, "name")}
      />
      <Field
        label="E-mail"
        name="email"
        type="email"
        value={email}
        required
        inputmode="email"
        autocomplete="username"
        maxlength={254}
        fault={says(faults, "email")}
      />
      <Field
        label="Password"
        name="password"
        type="password"
        required
        autocomplete="new-password"
        hint="At least 10 characters, and not your name or e-mail."
        fault={says(faults, "password")}
      />
      <p class="actions">
        <button type="submit">Join</button>
      </p>
    </form>
  </section>
);

/** A link that was used, ended, is over a week old or was never one: nobody is told which. */
export const SpentInvite = () => (
  <section>
    <h1>This link does not work</h1>
    <p>
      A link to join works once and for a week. This one was used or ended, is too old, or was
      copied without its end. Ask the manager who gave it to you for a new one.
    </p>
    <p>
      If you have joined already, <a href="/session/new">sign in</a>.
    </p>
  </section>
);

const says = (faults: readonly Fault[], path: string) =>
  faults.find((fault) => fault.path === path)?.says;
