import { Choice, type Fault, FaultSummary } from "../parts/field.tsx";
import type { PersonLine } from "./people.tsx";
import { Recoveries, type RecoveryLine } from "./recovery.tsx";
import { roleChoices, rolesSay } from "./roles.ts";
import { When } from "./when.tsx";

type PersonProps = {
  person: PersonLine;
  /** Whether this is the manager who looks. */
  oneself: boolean;
  recoveries: readonly RecoveryLine[];
  faults?: readonly Fault[] | undefined;
};

/** One person of the studio, for a manager: the role, and the way out. */
export const Person = ({ person, oneself, recoveries, faults = [] }: PersonProps) => (
  <section>
    <h1>{person.name}</h1>
    <FaultSummary faults={faults} />
    <p>
      {person.role}, here since <When at={person.joinedAt} />
    </p>
    <h2>Role</h2>
    <form method="post" action={`/people/${person.id}`}>
      <Choice
        label="Role"
        name="role"
        options={roleChoices}
        value={person.role}
        required
        hint={`${rolesSay} A new role holds from the next page they open; links that a manager made end with the role.`}
        fault={faults.find((fault) => fault.path === "role")?.says}
      />
      <p class="actions">
        <button type="submit">Change the role</button>
      </p>
    </form>
    <Recoveries person={person} recoveries={recoveries} />
    <h2>Leaving</h2>
    {oneself ? (
      <p>You cannot remove yourself: another manager does it.</p>
    ) : (
      <p>
        <a class="button quiet" href={`/people/${person.id}/removal`}>
          Remove {person.name}
        </a>
      </p>
    )}
    <p>
      <a href="/people">All people</a>
    </p>
  </section>
);
