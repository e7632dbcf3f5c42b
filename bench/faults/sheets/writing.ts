import { eq } from "drizzle-orm";
import { events, notes } from "../../../src/db/schema/index.ts";
import type { Engine } from "./engines.ts";
import { promised } from "./promises.ts";
import { type Answer, inWords, type Studio } from "./studio.ts";

/** A note as whoever wrote it keeps it until it has been answered. */
type Written = { key: string; text: string; id?: string };

/** Several people who put notes on one recipe, each with a key of its own, whatever comes back. */
export class Writing {
  readonly #studio: Studio;
  readonly #all: Written[] = [];
  readonly refused: Answer[] = [];
  /** Without an answer, since the app was gone. */
  cutOff = 0;
  hung = 0;
  #stopped = false;
  #people: Promise<unknown> = Promise.resolve();

  constructor(studio: Studio) {
    this.#studio = studio;
  }

  get acknowledged(): Written[] {
    return this.#all.filter(({ id }) => id !== undefined);
  }

  begin(people = 8): void {
    this.#stopped = false;
    const person = async () => {
      while (!this.#stopped) {
        const place = this.#all.length;
        const note = { key: `note-${place}`, text: `What I saw, ${place}.` };
        this.#all.push(note);
        if (!(await this.#send(note))) await new Promise((resolve) => setTimeout(resolve, 50));
      }
    };
    this.#people = Promise.all(Array.from({ length: people }, person));
  }

  async end(): Promise<void> {
    this.#stopped = true;
    await this.#people;
  }

  async #send(note: Written): Promise<boolean> {
    const { key, text } = note;
    const path = `/recipes/${this.#studio.recipe}/notes`;
    try {
      const answer = await this.#studio.ask(path, { json: { text }, key });
      if (answer.status === 201) {
        const { id } = JSON.parse(answer.text) as { id: string };
        if (note.id !== undefined && note.id !== id) throw new Error(`${key} was written twice`);
        note.id = id;
        return true;
      }
      this.refused.push(answer);
    } catch (error) {
      if (!(error instanceof Error)) throw error;
      if (error.name === "TimeoutError") this.hung += 1;
      else if (error instanceof TypeError) this.cutOff += 1;
      else throw error;
    }
    return false;
  }

  /** Nothing hung, and what was refused was refused in words and with one of these. */
  refusedInWords(where: string, statuses: readonly number[]): void {
    const odd = this.refused.filter(
      (answer) => !statuses.includes(answer.status) || !inWords(answer),
    );
    const said = odd[0] ? `; such as ${odd[0].status} ${odd[0].text.slice(0, 200)}` : "";
    promised(
      where,
      `who writes meanwhile is refused in words (${statuses.join(" or ")}) and does not hang`,
      odd.length === 0 && this.hung === 0,
      `${this.refused.length} refused, ${odd.length} otherwise, ${this.hung} hung, ${this.cutOff} cut off${said}`,
    );
  }

  /** Everything acknowledged is there, everything sent again is there once. */
  async keptOnce(where: string): Promise<void> {
    const before = this.acknowledged.length;
    const there = await this.#listed();
    const lost = this.acknowledged.filter(({ id, text }) => there.get(id ?? "") !== text);
    promised(
      where,
      "nothing acknowledged is lost",
      lost.length === 0,
      `${before} of ${this.#all.length} sent were acknowledged, ${lost.length} lost`,
    );

    const again = [...this.#all];
    for (const note of again) if (!(await this.#send(note))) throw new Error(`${note.key} refused`);
    const now = [...(await this.#listed()).values()].sort();
    const once = this.#all.map(({ text }) => text).sort();
    promised(
      where,
      "sent again with its key, each is there once",
      now.join() === once.join(),
      `${again.length} sent again, ${now.length} there`,
    );
  }

  async #listed(): Promise<Map<string, string>> {
    const answer = await this.#studio.ask(`/recipes/${this.#studio.recipe}/notes`);
    const { items } = JSON.parse(answer.text) as { items: { id: string; text: string }[] };
    return new Map(items.map(({ id, text }) => [id, text]));
  }
}

/** Every note has its event and every event its note; asked while no app runs. */
export async function nothingHalfWritten(engine: Engine): Promise<void> {
  const { db, close } = await engine.open();
  const written = await db.$count(notes);
  const told = await db.$count(events, eq(events.kind, "noted"));
  await close();
  promised(
    engine.name,
    "nothing is half-written",
    written === told,
    `${written} notes, ${told} events that tell of one`,
  );
}
