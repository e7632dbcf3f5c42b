import { type Fault, FaultSummary, Field } from "../parts/field.tsx";

type SignInProps = {
  email?: string | undefined;
  /** A path of this studio to go on to. */
  next?: string | undefined;
  faults?: readonly Fault[] | undefined;
  signedInAs?: string | undefined;
};

/** The way in for people of the studio. */
export const SignIn = ({ email, next, faults = [], signedInAs }: SignInProps) => (
  <section>
    <h1>Sign in</h1>
    <FaultSummary faults={faults} />
    {signedInAs ? (
      <p>You are signed in as {signedInAs}. Signing in again here ends that and starts afresh.</p>
    ) : null}
    <form method="post" action="/session">
      {next ? <input type="hidden" name="next" value={next} /> : null}
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
        autocomplete="current-password"
        fault={says(faults, "password")}
      />
      <p class="actions">
        <button type="submit">Sign in</button>
      </p>
    </form>
    <p>Forgotten your password? Ask a manager of the studio for a link to set a new one.</p>
    <p>
      No account yet? Ask a manager of the studio for a link to join. Reading what the studio shows
      to everyone takes no account: <a href="/recipes">to the library</a>.
    </p>
  </section>
);

const says = (faults: readonly Fault[], path: string) =>
  faults.find((fault) => fault.path === path)?.says;
