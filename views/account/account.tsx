import { type Fault, FaultSummary, Field } from "../parts/field.tsx";
import { When } from "../people/when.tsx";
import { browserWords } from "./browser-words.ts";
import { type ShownWishes, Telling } from "./telling.tsx";

export type SessionLine = { id: string; startedAt: Date; browser: string; current: boolean };

type AccountProps = {
  person: { name: string; email: string; role: string; joinedAt: Date };
  sessions: readonly SessionLine[];
  wishes: ShownWishes;
  sendsMail: boolean;
  faults?: readonly Fault[] | undefined;
};

/** What the studio knows of you, where you are signed in, and your password. */
export const Account = ({ person, sessions, wishes, sendsMail, faults = [] }: AccountProps) => (
  <section>
    <h1>Your account</h1>
    <FaultSummary faults={faults} />
    <dl class="ratios">
      <div>
        <dt>Name</dt>
        <dd>{person.name}</dd>
      </div>
      <div>
        <dt>E-mail</dt>
        <dd>{person.email}</dd>
      </div>
      <div>
        <dt>Role</dt>
        <dd>{person.role}</dd>
      </div>
      <div>
        <dt>Here since</dt>
        <dd>
          <When at={person.joinedAt} />
        </dd>
      </div>
    </dl>
    <p>
      Whoever leaves the studio becomes a pseudonym here: a manager removes name, e-mail and
      password, and what was put on record stays.
    </p>
    <p>
      <a href="/uses">What you glazed with the shared buckets</a>
    </p>
    <p>
      <a href="/account/settings">How pages read for you: units, names, light or dark</a>
    </p>
    <form method="post" action="/session/end">
      <p class="actions">
        <button type="submit">Sign out</button>
      </p>
    </form>

    <Telling wishes={wishes} sendsMail={sendsMail} />

    <Sessions sessions={sessions} />

    <h2>Change the password</h2>
    <p>Every other browser that is signed in has to sign in again.</p>
    <form method="post" action="/account/password">
      <Field
        label="Password now"
        name="current"
        type="password"
        required
        autocomplete="current-password"
        fault={says(faults, "current")}
      />
      <Field
        label="New password"
        name="password"
        type="password"
        required
        autocomplete="new-password"
        hint="At least 10 characters, and not your name or e-mail."
        fault={says(faults, "password")}
      />
      <p class="actions">
        <button type="submit">Change the password</button>
      </p>
    </form>
  </section>
);

const Sessions = ({ sessions }: { sessions: readonly SessionLine[] }) => (
  <>
    <h2 id="sessions">Where you are signed in</h2>
    <ul class="findings">
      {sessions.map((session) => (
        <li class="finding">
          <span>{session.current ? "this one" : "another"}</span>
          <form method="post" action={`/account/sessions/${session.id}/end`}>
            <p>
              {browserWords(session.browser)}, since <When at={session.startedAt} clock />
            </p>
            {session.current ? null : (
              <button type="submit" class="quiet">
                Sign it out
                <span class="hidden-words"> ({session.startedAt.toISOString()})</span>
              </button>
            )}
          </form>
        </li>
      ))}
    </ul>
    {sessions.some((session) => !session.current) ? (
      <form method="post" action="/account/sessions/end">
        <p class="actions">
          <button type="submit" class="quiet">
            Sign out all others
          </button>
        </p>
      </form>
    ) : null}
  </>
);

const says = (faults: readonly Fault[], path: string) =>
  faults.find((fault) => fault.path === path)?.says;
