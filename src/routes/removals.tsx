import { Hono } from "hono";
import { validate as isId } from "uuid";
import { z } from "zod";
import { RemovalPage } from "../../views/people/removal.tsx";
import { type Forgettable, findForgettable, type What } from "../db/forgettable.ts";
import { forget } from "../db/forgetting.ts";
import { answer, onTo, wantsJson } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { text } from "../wire/fields.ts";
import { managerRequired } from "../wire/permissions.ts";
import { type Fault, faulty, notAllowed, notFound } from "../wire/problems.tsx";

export const removals = new Hono<Env>();

const removalBody = z.strictObject({ why: text(1000) });

const isDigest = (typed: string) => /^[0-9a-f]{64}$/.test(typed);

type Kind = {
  what: What;
  path: string;
  valid: (which: string) => boolean;
  here: "people" | "library";
};

const kinds: readonly Kind[] = [
  { what: "person", path: "/people/:which/removal", valid: isId, here: "people" },
  { what: "note", path: "/notes/:which/removal", valid: isId, here: "library" },
  { what: "picture", path: "/photos/:which/removal", valid: isDigest, here: "library" },
];

for (const kind of kinds) {
  removals.get(
    kind.path,
    described({ says: `What goes and what stays when a ${kind.what} is removed, for a manager` }),
    managerRequired,
    async (c) => {
      const there = await thereAt(c, kind);
      if (!there) return notFound(c);
      return answer(c, { json: () => there, ...removalPage(c, kind, there) });
    },
  );

  removals.on(
    ["PUT", "POST"],
    kind.path,
    described({ says: `Removes a ${kind.what} for good; the record stays`, body: removalBody }),
    managerRequired,
    async (c) => {
      const there = await thereAt(c, kind);
      if (!there) return notFound(c);
      const read = await readBody(c, removalBody);
      if (read.kind === "refused") {
        const why = typeof read.typed.why === "string" ? read.typed.why : undefined;
        return faulty(c, read, removalPage(c, kind, there, { faults: read.faults, why }));
      }

      const { what } = kind;
      const { why } = read.value;
      const act = { by: memberOf(c).id, at: c.var.now };
      const forgotten = await forget(c.var.db, { what, which: there.which, why, ...act });
      switch (forgotten.kind) {
        case "forgotten":
        case "before": {
          if (!wantsJson(c)) return onTo(c, what === "person" ? "/people" : c.req.path);
          return c.json((await thereAt(c, kind)) ?? {});
        }
        case "nothing-there":
          return notFound(c);
        case "not-manager":
          return notAllowed(c, "Only a manager of the studio can do this. Ask one.");
        case "oneself": {
          const says =
            "Another manager has to remove you. Where there is none, make somebody else manager first.";
          const faults = [{ path: "", says }];
          return faulty(c, { faults }, removalPage(c, kind, there, { faults, why }));
        }
      }
    },
  );
}

const thereAt = async (c: Ctx, { what, valid }: Kind): Promise<Forgettable | undefined> => {
  const which = c.req.param("which") ?? "";
  return valid(which) ? findForgettable(c.var.db, { what, which }) : undefined;
};

const removalPage = (
  c: Ctx,
  { here }: Kind,
  there: Forgettable,
  { faults = [], why }: { faults?: readonly Fault[]; why?: string | undefined } = {},
) => ({
  page: { title: there.removal ? "Removed" : `Remove a ${there.what}`, here },
  view: () => (
    <RemovalPage
      what={there.what}
      path={c.req.path}
      says={there.says}
      recipe={there.recipe}
      removal={there.removal}
      why={why}
      faults={faults}
    />
  ),
});
