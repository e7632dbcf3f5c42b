import { eq, getTableColumns, sql } from "drizzle-orm";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import type { Role } from "./people.ts";
import { prepared } from "./prepared.ts";
import { people, preferences, sessions } from "./schema/index.ts";

export { heatWords, temperatureUnits, themes, weightUnits } from "./schema/preferences.ts";

const { personId: _, ...columns } = getTableColumns(preferences);

/** How somebody wants to read: units, names, how chemistry is counted, light or dark. */
export type Preferences = Omit<typeof preferences.$inferSelect, "personId">;

/** How whoever chose nothing reads. */
export const usualPreferences: Preferences = {
  region: "",
  weight: "g",
  temperature: "C",
  heat: "cone",
  theme: "system",
  unity: "fluxes",
  iron: "Fe2O3",
  boron: "apart",
};

/** Whose session it is, as it stands in the database, with how they want to read. */
export type FoundSession = {
  session: typeof sessions.$inferSelect;
  person: { id: string; name: string; role: Role };
  preferences: Preferences;
};

const sessionNow = prepared((db) =>
  db
    .select({
      session: sessions,
      person: { id: people.id, name: people.name, role: people.role },
      preferences: columns,
    })
    .from(sessions)
    .innerJoin(people, eq(people.id, sessions.userId))
    .leftJoin(preferences, eq(preferences.personId, people.id))
    .where(eq(sessions.id, sql.placeholder("id")))
    .prepare("session"),
);

/** The session of that id, asked for by nearly every request: one query for all that it needs. */
export async function findSession(db: Db, id: string): Promise<FoundSession | undefined> {
  const [found] = await sessionNow(db).execute({ id });
  return found && { ...found, preferences: found.preferences ?? usualPreferences };
}

/** How somebody reads now; the usual where they chose nothing. */
export async function findPreferences(db: Db, personId: string): Promise<Preferences> {
  const [chosen] = await db
    .select(columns)
    .from(preferences)
    .where(eq(preferences.personId, personId));
  return chosen ?? usualPreferences;
}

/**
 * Sets how somebody reads from now on. What is not said stays as it is, whoever changes it at the
 * same time.
 */
export async function setPreferences(
  db: Db,
  { by, at, chosen }: Act & { by: string; chosen: Partial<Preferences> },
): Promise<void> {
  if (Object.keys(chosen).length === 0) return;
  await db.transaction(async (tx) => {
    await tx
      .insert(preferences)
      .values({ personId: by, ...chosen })
      .onConflictDoUpdate({ target: preferences.personId, set: chosen });
    // Which of them is nobody else's concern.
    const happening = { kind: "settings changed", subject: "person", subjectId: by } as const;
    await appendEvent(tx, { by, at }, happening);
  });
}
