import type { Decimal } from "decimal.js";
import { desc, eq } from "drizzle-orm";
import { v7 as uuidv7 } from "uuid";
import type { Db } from "./client.ts";
import { type Act, appendEvent } from "./events.ts";
import { firingCosts, people } from "./schema/index.ts";

/** What heats a kiln, and how that is measured. */
export const energies = firingCosts.energy.enumValues;
export const energyUnits = firingCosts.unit.enumValues;

export type FiringCost = {
  energy: (typeof energies)[number];
  amount: Decimal;
  unit: (typeof energyUnits)[number];
  /** What the whole firing cost, where somebody said. */
  price: Decimal | null;
  currency: string | null;
  by: { id: string; name: string };
  at: Date;
};

type NewCost = Omit<FiringCost, "by" | "at"> & Act & { by: string; firingId: string };

/** Puts on record what a firing used and cost. Earlier figures stay; the newest count. @returns its id. */
export async function addFiringCost(
  db: Db,
  { firingId, energy, amount, unit, price, currency, by, at }: NewCost,
): Promise<string> {
  return db.transaction(async (tx) => {
    const id = uuidv7();
    const said = { energy, amount, unit, price, currency };
    await tx.insert(firingCosts).values({ id, firingId, ...said, by, at });
    const detail = { cost: id, energy, amount: amount.toFixed(), unit };
    await appendEvent(
      tx,
      { by, at },
      { kind: "cost added", subject: "firing", subjectId: firingId, detail },
    );
    return id;
  });
}

/** What counts of what a firing used and cost, or undefined where nobody said. */
export async function findFiringCost(
  db: Db,
  { firingId }: { firingId: string },
): Promise<FiringCost | undefined> {
  const [found] = await db
    .select({
      energy: firingCosts.energy,
      amount: firingCosts.amount,
      unit: firingCosts.unit,
      price: firingCosts.price,
      currency: firingCosts.currency,
      by: { id: people.id, name: people.name },
      at: firingCosts.at,
    })
    .from(firingCosts)
    .innerJoin(people, eq(people.id, firingCosts.by))
    .where(eq(firingCosts.firingId, firingId))
    .orderBy(desc(firingCosts.id))
    .limit(1);
  return found;
}
