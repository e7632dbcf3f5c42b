import { Choice, type Fault, FaultSummary } from "../parts/field.tsx";
import { type Role, roleChoices, rolesSay } from "./roles.ts";
import { When } from "./when.tsx";

export type PersonLine = { id: string; name: string; role: Role; joinedAt: Date };

export type InviteLine = {
  id: string;
  role: Role;
  madeBy: string | null;
  madeAt: Date;
  expiresAt: Date;
};

export type FormerLine = { id: string; name: string; removedAt: Date; why: string };

type PeopleProps = {
  people: readonly PersonLine[];
  next: string | null;
  invites: readonly InviteLine[];
  former: readonly FormerLine[];
  faults?: readonly Fault[] | undefined;
};

/** Who belongs to the studio, and the links by which somebody still can. */
export const People = ({ people, next, invites, former, faults = [] }: PeopleProps) => (
  <section>
    <h1>People</h1>
    <p>
      <a href="/studio">How the studio is set</a>: its scale, how long an approval holds, what
      visitors see. <a href="/studio/data">Take it with you</a>: the whole library as one file.{" "}
      <a href="/studio/about">About this studio</a>: its backups, its record, what it runs on.
    </p>
    <FaultSummary faults={faults} />
    <ul class="findings">
      {people.map((person) => (
        <li class="finding">
          <span>{person.role}</span>
          <span>
            <a href={`/people/${person.id}`}>{person.name}</a>
            <br />
            here since <When at={person.joinedAt} />
          </span>
        </li>
      ))}
    </ul>
    {next === null ? null : (
      <p>
        <a class="button quiet" href={`/people?after=${encodeURIComponent(next)}`}>
          Further names
        </a>
      </p>
    )}

    <h2 id="invites">Invite somebody</h2>
    <p>
      A link lets one person join with the role you choose here. It works once and for a week. Hand
      it to them yourself: whoever holds it can use it.
    </p>
    <form method="post" action="/invites">
      <Choice
        label="Joins as"
        name="role"
        options={roleChoices}
        value="member"
        required
        hint={rolesSay}
        fault={faults.find((fault) => fault.path === "role")?.says}
      />
      <p class="actions">
        <button type="submit">Make a link</button>
      </p>
    </form>

    <h3>Links that still work</h3>
    {invites.length === 0 ? (
      <p>None.</p>
    ) : (
      <ul class="findings">
        {invites.map((invite) => (
          <OpenInvite invite={invite} />
        ))}
      </ul>
    )}

    {former.length === 0 ? null : <Former former={former} />}
  </section>
);

const OpenInvite = ({ invite }: { invite: InviteLine }) => (
  <li class="finding">
    <span>{invite.role}</span>
    <form method="post" action={`/invites/${invite.id}/revocation`}>
      <p>
        Made <When at={invite.madeAt} clock />
        {invite.madeBy === null ? ", at the studio's first start" : ` by ${invite.madeBy}`}; works
        until <When at={invite.expiresAt} clock />.
      </p>
      <button type="submit" class="quiet">
        End this link
        <span class="hidden-words">
          {" "}
          for a {invite.role}, made {invite.madeAt.toISOString()}
        </span>
      </button>
    </form>
  </li>
);

const Former = ({ former }: { former: readonly FormerLine[] }) => (
  <>
    <h2>People who left</h2>
    <p>What they put on record stays, under these names.</p>
    <ul class="findings">
      {former.map((person) => (
        <li class="finding">
          <span>left</span>
          <span>
            {person.name}, <When at={person.removedAt} />: {person.why}
          </span>
        </li>
      ))}
    </ul>
  </>
);
