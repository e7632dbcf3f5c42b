// What somebody put in or took back and no answer has come to yet: kept in the browser's own
// database until the studio has it, by person and mix.
import { openDB } from "/assets/idb.js";

const patience = 15_000;

/** Opens what one person has waiting in one mix; an entry is `{n, does, key, grams, …}`. */
export const openQueue = async (owner) => {
  const db = await openDB("mixing", 1, {
    upgrade: (fresh) => fresh.createObjectStore("entries", { keyPath: "id", autoIncrement: true }),
  });

  // On the disk before it is said to be kept: the battery may be empty next.
  const write = async (step) => {
    const tx = db.transaction("entries", "readwrite", { durability: "strict" });
    const done = await step(tx.store);
    await tx.done;
    return done;
  };

  const isOwn = ({ person, mix }) => person === owner.person && mix === owner.mix;

  return {
    async list() {
      const all = await db.getAll("entries");
      return {
        mine: all.filter(isOwn),
        others: all.filter(({ person, mix }) => mix === owner.mix && person !== owner.person),
        elsewhere: all.filter(({ person, mix }) => person === owner.person && mix !== owner.mix),
      };
    },

    add: (entry) => write((store) => store.add({ ...entry, ...owner })),

    remove: (...ids) => write((store) => Promise.all(ids.map((id) => store.delete(id)))),

    /** Answers false where it is gone: another window may have sent it, or its owner taken it back. */
    change: (id, fields) =>
      write(async (store) => {
        const entry = await store.get(id);
        if (entry) await store.put({ ...entry, ...fields });
        return entry !== undefined;
      }),

    /** Takes a waiting tick back. One that was on its way may have arrived: the studio is told of both. */
    takeBack: (id) =>
      write(async (store) => {
        const entry = await store.get(id);
        if (!entry?.tried) return store.delete(id);
        const { id: _, tried: __, ...same } = entry;
        return store.add({ ...same, does: "undo" });
      }),
  };
};

/**
 * Sends one entry. `sent`, or `refused` with why; `signed-out`, `somebody-else`, `later` and `away`
 * leave it waiting.
 */
export const send = async ({ mix, n, does, person, key, grams, lot, adds }) => {
  const [method, body] =
    does === "undo" ? ["DELETE", { key, person }] : ["PUT", { grams, lot, key, adds, person }];
  try {
    const told = await fetch(`${mix}/lines/${n}`, {
      method,
      headers: { Accept: "application/json", "Content-Type": "application/json" },
      body: JSON.stringify(body),
      signal: AbortSignal.timeout(patience),
    });
    const says = await told.json().catch(() => null);
    // Another network's own page may answer in the studio's stead.
    if (told.ok) return { came: says?.lines ? "sent" : "later" };
    if (told.status === 401) return { came: "signed-out" };
    if (says?.type === "/problems/somebody-else") return { came: "somebody-else" };
    if (told.status >= 500 || told.status === 429 || !says?.detail) return { came: "later" };
    return {
      came: "refused",
      says: says.detail,
      onTop: told.status === 409 && says.mix?.is === "open",
    };
  } catch {
    return { came: "away" };
  }
};
