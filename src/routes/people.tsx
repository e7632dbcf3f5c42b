import { Hono } from "hono";
import { validate as isId } from "uuid";
import { z } from "zod";
import { People } from "../../views/people/people.tsx";
import { Person } from "../../views/people/person.tsx";
import type { RecoveryLine } from "../../views/people/recovery.tsx";
import { listOpenInvites } from "../db/invites.ts";
import {
  changeRole,
  findPerson,
  listFormerPeople,
  listPeople,
  type Person as PersonRow,
  roles,
} from "../db/people.ts";
import { listOpenRecoveries } from "../db/recoveries.ts";
import { answer, changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notFound } from "../wire/problems.tsx";

export const people = new Hono<Env>();

const query = z.object({ after: z.string().max(200).optional() });
const roleBody = z.strictObject({ role: z.enum(roles) });

people.get(
  "/people",
  described({ says: "People of the studio and links to join, for a manager", query }),
  managerRequired,
  async (c) => {
    const { items, next } = await listPeople(c.var.db, { after: c.req.query("after") });
    const invites = await listOpenInvites(c.var.db, c.var.now);
    const former = await listFormerPeople(c.var.db);
    return answer(c, {
      json: () => ({ items, next, invites, former }),
      page: { title: "People", here: "people" },
      view: () => <People people={items} next={next} invites={invites} former={former} />,
    });
  },
);

people.get(
  "/people/:id",
  described({ says: "One person, for a manager" }),
  managerRequired,
  async (c) => {
    const person = await personAt(c);
    if (!person) return notFound(c);
    const recoveries = await recoveriesOf(c, person);
    return answer(c, {
      json: () => ({ ...person, recoveries }),
      ...personPage(c, person, recoveries),
    });
  },
);

people.on(
  ["PATCH", "POST"],
  "/people/:id",
  described({ says: "Gives somebody another role", body: roleBody }),
  managerRequired,
  async (c) => {
    const person = await personAt(c);
    if (!person) return notFound(c);
    const read = await readBody(c, roleBody);
    const again = async (faults: readonly Fault[]) =>
      personPage(c, person, await recoveriesOf(c, person), faults);
    if (read.kind === "refused") return faulty(c, read, await again(read.faults));

    const change = await changeRole(c.var.db, {
      personId: person.id,
      role: read.value.role,
      ...actOf(c),
    });
    switch (change.kind) {
      case "changed":
        return changed(c, `/people/${person.id}`, change.person);
      case "no-person":
        return notFound(c);
      case "last-manager": {
        const says = "The studio would have no manager. Make somebody else manager first.";
        const faults = [{ path: "role", says }];
        return faulty(c, { faults }, await again(faults));
      }
    }
  },
);

const personAt = async (c: Ctx): Promise<PersonRow | undefined> => {
  const id = c.req.param("id");
  return id && isId(id) ? findPerson(c.var.db, id) : undefined;
};

const recoveriesOf = (c: Ctx, person: PersonRow) =>
  listOpenRecoveries(c.var.db, { personId: person.id, at: c.var.now });

const personPage = (
  c: Ctx,
  person: PersonRow,
  recoveries: readonly RecoveryLine[],
  faults: readonly Fault[] = [],
) => ({
  page: { title: person.name, here: "people" } as const,
  view: () => (
    <Person
      person={person}
      oneself={person.id === memberOf(c).id}
      recoveries={recoveries}
      faults={faults}
    />
  ),
});
