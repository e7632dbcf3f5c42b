import type postgres from "postgres";
import { whyUnanswered } from "./unanswered.ts";

type Inside = postgres.TransactionSql;
type Work = (sql: Inside) => Promise<unknown>;

/** What becomes of one transaction. */
class Held {
  over: Error | undefined;
  #end: (error: Error) => void = () => {};
  /** Fails once the connection is lost. */
  readonly gone = new Promise<never>((_, reject) => {
    this.#end = reject;
  });

  constructor() {
    this.gone.catch(() => {});
  }

  /** Nothing more is sent for it, whether its end came well or badly. */
  end(error: Error): void {
    this.over ??= error;
  }

  lose(error: Error): void {
    this.end(error);
    this.#end(error);
  }
}

/**
 * Lets a transaction end with its connection. What it goes on to ask, and its rollback, the driver would
 * send down whatever that connection is by then: nothing, which ends the process, or one that was made
 * anew, where a statement is written by itself.
 */
export function endWithConnection(client: postgres.Sql): postgres.Sql {
  const { begin } = client;
  // Called with or without options before the work.
  client.begin = ((...given: unknown[]) => {
    const work = given.pop() as Work;
    const held = new Held();
    const begun: Promise<unknown> = Reflect.apply(begin, client, [
      ...given,
      (sql: Inside) => carryOut(sql, work, held),
    ]);
    begun.then(
      () => held.end(new Error("this transaction is over")),
      (error) => held.lose(error),
    );
    return Promise.race([held.gone, begun]);
  }) as typeof client.begin;
  return client;
}

async function carryOut(sql: Inside, work: Work, held: Held): Promise<unknown> {
  guard(sql, held);
  try {
    return await work(sql);
  } finally {
    // Whoever waits has heard of it from `gone`; an end here would have the driver send its rollback.
    if (held.over) await new Promise(() => {});
  }
}

function guard(sql: Inside, held: Held): void {
  const { unsafe, savepoint } = sql;
  sql.unsafe = ((...given: Parameters<typeof unsafe>) => {
    const asked = Reflect.apply(unsafe, sql, given);
    const { then } = asked;
    const sent: typeof then = (...whoWaits) => {
      if (held.over) return Promise.reject(held.over).then(...whoWaits);
      Reflect.apply(then, asked, [
        undefined,
        (error: Error) => {
          if (whyUnanswered(error) === "away") held.lose(error);
        },
      ]);
      return Reflect.apply(then, asked, whoWaits);
    };
    // biome-ignore lint/suspicious/noThenProperty: a statement is sent once somebody waits for it, which is when its connection has to be there
    asked.then = sent;
    return asked;
  }) as typeof unsafe;
  sql.savepoint = ((...given: unknown[]) => {
    if (held.over) return Promise.reject(held.over);
    const work = given.pop() as Work;
    const inner = (nested: Inside) => carryOut(nested, work, held);
    return Promise.race([held.gone, Reflect.apply(savepoint, sql, [...given, inner])]);
  }) as typeof savepoint;
}
