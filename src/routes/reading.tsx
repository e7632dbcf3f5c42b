import { Hono } from "hono";
import { ReadingPage } from "../../views/account/reading.tsx";
import { foldName } from "../db/names.ts";
import { listRegions } from "../db/names-in-region.ts";
import { findPreferences, type Preferences, setPreferences } from "../db/preferences.ts";
import { answer, changed } from "../wire/answers.tsx";
import { readBody } from "../wire/body.ts";
import { actOf, type Ctx, type Env, memberOf } from "../wire/context.ts";
import { described } from "../wire/described.ts";
import { memberRequired } from "../wire/permissions.ts";
import { type Fault, faulty } from "../wire/problems.tsx";
import { given, keepReading, ownNames, readingBody, readingCookie } from "../wire/reading.ts";

export const reading = new Hono<Env>();

reading.get(
  "/account/settings",
  described({ says: "How you want to read: units, names, chemistry, light or dark" }),
  memberRequired,
  async (c) => shown(c, await own(c)),
);

reading.on(
  ["PUT", "POST"],
  "/account/settings",
  described({ says: "Set how you want to read; what is not sent stays", body: readingBody }),
  memberRequired,
  async (c) => {
    const read = await readReading(c);
    if (read.kind === "refused") return faulty(c, read, pageOf(await own(c), read));
    await setPreferences(c.var.db, { ...actOf(c), chosen: read.chosen });
    return changed(c, "/account/settings?changed=1", jsonOf(await own(c)));
  },
);

reading.get(
  "/reading",
  described({ says: "How this browser reads where nobody is signed in" }),
  async (c) => shown(c, await ofBrowser(c)),
);

reading.post(
  "/reading",
  described({
    says: "Set how this browser reads where nobody is signed in; what is not sent stays",
    body: readingBody,
  }),
  async (c) => {
    const read = await readReading(c);
    const before = await ofBrowser(c);
    if (read.kind === "refused") return faulty(c, read, pageOf(before, read));
    const now = { ...before.preferences, ...read.chosen };
    keepReading(c, now);
    return changed(c, "/reading?changed=1", jsonOf({ ...before, preferences: now }));
  },
);

type Chosen = { preferences: Preferences; regions: string[]; action: string };

/** The regions to choose from: names of powders are for who may read the shelf. */
const regionsFor = async (c: Ctx): Promise<string[]> =>
  c.var.viewer || c.var.studio.showsPublic ? listRegions(c.var.db) : [];

const own = async (c: Ctx): Promise<Chosen> => ({
  preferences: await findPreferences(c.var.db, memberOf(c).id),
  regions: await regionsFor(c),
  action: "/account/settings",
});

const ofBrowser = async (c: Ctx): Promise<Chosen> => ({
  preferences: readingCookie(c),
  regions: await regionsFor(c),
  action: "/reading",
});

type Read =
  | { kind: "read"; chosen: Partial<Preferences> }
  | { kind: "refused"; status?: 415 | 422; faults: Fault[]; typed: Record<string, unknown> };

/** What was sent, its region spelled as it is on record. */
async function readReading(c: Ctx): Promise<Read> {
  const read = await readBody(c, readingBody);
  if (read.kind === "refused") return read;
  const chosen = given(read.value);
  if (!chosen.region) return { kind: "read", chosen };
  const regions = await regionsFor(c);
  const key = foldName(chosen.region);
  const region = regions.find((known) => foldName(known) === key);
  if (region) return { kind: "read", chosen: { ...chosen, region } };
  const says =
    regions.length === 0
      ? "No powder has a name of another region on record here."
      : `No powder has a name of that region on record. There are: ${regions.join(", ")}.`;
  return { kind: "refused", faults: [{ path: "region", says }], typed: read.typed };
}

const jsonOf = ({ preferences, regions }: Chosen) => ({
  ...preferences,
  region: preferences.region || null,
  regions,
});

const shown = (c: Ctx, chosen: Chosen) =>
  answer(c, {
    json: () => jsonOf(chosen),
    ...pageOf(chosen, { faults: [], typed: {} }, c.req.query("changed") === "1"),
  });

const pageOf = (
  { preferences, regions, action }: Chosen,
  { faults, typed }: { faults: readonly Fault[]; typed: Record<string, unknown> },
  isChanged = false,
) => ({
  page: {
    title: action === "/reading" ? "How this browser reads" : "How you read",
    here: action === "/reading" ? "none" : "account",
    notice: isChanged ? "Pages read so from now on." : undefined,
  } as const,
  view: () => (
    <ReadingPage
      chosen={{ ...preferences, region: preferences.region || ownNames, ...textsOf(typed) }}
      regions={regions}
      action={action}
      faults={faults}
    />
  ),
});

const textsOf = (typed: Record<string, unknown>): Record<string, string> =>
  Object.fromEntries(
    Object.entries(typed).flatMap(([word, is]) => (typeof is === "string" ? [[word, is]] : [])),
  );
