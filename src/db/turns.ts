import type postgres from "postgres";
import { NoConnectionFree } from "./unanswered.ts";

/** Lets so many through at once, in the order they came; who waits longer than `mostMs` is refused. */
export class Turns {
  #free: number;
  readonly #mostMs: number;
  readonly #waiting = new Set<() => void>();

  constructor(atOnce: number, mostMs: number) {
    this.#free = atOnce;
    this.#mostMs = mostMs;
  }

  /** @throws NoConnectionFree where nobody made way in time; then `work` was not begun. */
  async take<Result>(work: () => PromiseLike<Result>): Promise<Result> {
    if (this.#free > 0) this.#free -= 1;
    else await this.#madeWay();
    try {
      return await work();
    } finally {
      const [next] = this.#waiting;
      if (next) next();
      else this.#free += 1;
    }
  }

  #madeWay(): Promise<void> {
    return new Promise((resolve, reject) => {
      const go = () => {
        clearTimeout(late);
        this.#waiting.delete(go);
        resolve();
      };
      const late = setTimeout(() => {
        this.#waiting.delete(go);
        reject(new NoConnectionFree());
      }, this.#mostMs);
      this.#waiting.add(go);
    });
  }
}

/**
 * Has whatever is asked of a pool wait for a connection of its own, and no longer than the turns allow:
 * the driver would send it down one that is busy with something long, or keep it for good.
 */
export function takeTurns(client: postgres.Sql, turns: Turns): postgres.Sql {
  const { unsafe, begin } = client;
  client.unsafe = ((...given: Parameters<typeof unsafe>) => {
    const asked = Reflect.apply(unsafe, client, given);
    // What begins a transaction has had its turn.
    if (given[2] && "onexecute" in given[2]) return asked;
    const { then } = asked;
    let answered: Promise<unknown> | undefined;
    const inTurn = (...whoWaits: Parameters<typeof then>) => {
      answered ??= turns.take(
        () => new Promise((resolve, reject) => Reflect.apply(then, asked, [resolve, reject])),
      );
      return Reflect.apply(answered.then, answered, whoWaits);
    };
    // biome-ignore lint/suspicious/noThenProperty: a statement is sent once somebody waits for it, which is when its turn has to come
    asked.then = inTurn as typeof then;
    return asked;
  }) as typeof unsafe;
  client.begin = ((...given: unknown[]) =>
    turns.take(() => Reflect.apply(begin, client, given))) as typeof begin;
  return client;
}
