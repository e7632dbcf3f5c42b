import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { When } from "./when.tsx";

type FreshProps = { person: { id: string; name: string }; link: string; expiresAt: Date };

/** A fresh link, shown this once: only its hash is stored. */
export const FreshRecovery = ({ person, link, expiresAt }: FreshProps) => (
  <section>
    <h1>A new password for {person.name}</h1>
    <div class="field">
      <label for="recovery-link">Copy it now: it is shown only here, and only this once</label>
      <textarea id="recovery-link" rows={3} readonly>
        {link}
      </textarea>
    </div>
    <p>
      It lets {person.name} set a new password, once, until <When at={expiresAt} clock />. Hand it
      to them yourself, and be sure that it is them: whoever holds it can sign in as {person.name}.
    </p>
    <p>
      <a href={`/people/${person.id}`}>Back to {person.name}</a>
    </p>
  </section>
);

type SetProps = { name: string; token: string; faults?: readonly Fault[] | undefined };

/** Setting a new password by a link. */
export const SetPassword = ({ name, token, faults = [] }: SetProps) => (
  <section>
    <h1>A new password for {name}</h1>
    <FaultSummary faults={faults} />
    <p>
      Setting it signs you out everywhere, and this link and any other that was made for you work no
      more.
    </p>
    <form method="post" action={`/recovery/${token}`}>
      <Field
        label="New password"
        name="password"
        type="password"
        required
        autocomplete="new-password"
        hint="At least 10 characters, and not your name or e-mail."
        fault={faults.find((fault) => fault.path === "password")?.says}
      />
      <p class="actions">
        <button type="submit">Set the password</button>
      </p>
    </form>
  </section>
);

/** A link that was used, ended, is over a day old or was never one: nobody is told which. */
export const SpentRecovery = () => (
  <section>
    <h1>This link does not work</h1>
    <p>
      A link to set a new password works once and for a day. This one was used or ended, is too old,
      or was copied without its end. Ask a manager of the studio for a new one.
    </p>
    <p>
      If you know your password, <a href="/session/new">sign in</a>.
    </p>
  </section>
);

export type RecoveryLine = { id: string; madeBy: string | null; madeAt: Date; expiresAt: Date };

type RecoveriesProps = {
  person: { id: string; name: string };
  recoveries: readonly RecoveryLine[];
};

/** On a person's page: the way back in, and links that still work. */
export const Recoveries = ({ person, recoveries }: RecoveriesProps) => (
  <>
    <h2 id="recoveries">A forgotten password</h2>
    <p>
      A link lets {person.name} set a new password. It works once and for a day; setting it signs
      them out everywhere.
    </p>
    <form method="post" action={`/people/${person.id}/recovery`}>
      <p class="actions">
        <button type="submit" class="quiet">
          Make a link
        </button>
      </p>
    </form>
    {recoveries.length === 0 ? null : (
      <ul class="findings">
        {recoveries.map((recovery) => (
          <li class="finding">
            <span>link</span>
            <form method="post" action={`/recoveries/${recovery.id}/end`}>
              <p>
                Made <When at={recovery.madeAt} clock />
                {recovery.madeBy === null
                  ? ", at the machine that the studio runs on"
                  : ` by ${recovery.madeBy}`}
                ; works until <When at={recovery.expiresAt} clock />.
              </p>
              <button type="submit" class="quiet">
                End this link
                <span class="hidden-words"> made {recovery.madeAt.toISOString()}</span>
              </button>
            </form>
          </li>
        ))}
      </ul>
    )}
  </>
);
