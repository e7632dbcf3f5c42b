import { makeInvite, offerFirstInvite } from "../db/invites.ts";
import { joinStudio } from "../db/joining.ts";
import { type Entry, entry, type Making } from "./diary.ts";
import { demoPeople, emailOf, everyone, type Who } from "./people.ts";

/** Everybody joins by a link: the manager by the first one, the others by one that she made. */
export const peopleEntries = (): Entry[] =>
  everyone.map((who) =>
    entry(demoPeople[who].joinedAt, async (making, at) => {
      const { name } = demoPeople[who];
      const path = await invite(making, who, at);
      const token = new URLSearchParams(path.split("?")[1]).get("invite") ?? "";
      const passwordHash = (await making.prepared.hashes)[who];
      const joining = await joinStudio(making.db, {
        token,
        name,
        email: emailOf(who),
        passwordHash,
        at,
      });
      if (joining.kind !== "joined") throw new Error(`${name} could not join: ${joining.kind}`);
      making.ids.set(who, joining.person.id);
    }),
  );

async function invite({ db, ids }: Making, who: Who, at: Date): Promise<string> {
  const manager = ids.get("ines");
  if (manager === undefined) {
    const path = await offerFirstInvite(db, at);
    if (path === undefined) throw new Error("somebody belongs to this studio already");
    return path;
  }
  return (await makeInvite(db, { role: demoPeople[who].role, by: manager, at })).path;
}
