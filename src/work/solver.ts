import type { FromSolver } from "./solver.worker.ts";
import type { SolverTasks, TaskKind } from "./solver-tasks.ts";
import { type SolverThread, startThread } from "./solver-thread.ts";

/** Who asks: people of the studio go before visitors, who are told apart by their address. */
export type Asker = { member: boolean; address: string };

/**
 * `stopped: "clock"` is the best that was found before the time was up, by the task itself or, where
 * it had to be ended with its thread, as it was told last; `nothing` where there was none.
 */
export type Solved<Output> =
  | { kind: "done"; output: Output }
  | { kind: "stopped"; stopped: "clock"; best: Output }
  | { kind: "nothing"; stopped: "clock" }
  | { kind: "busy"; retryAfterSeconds: number }
  | { kind: "cancelled" };

export type SolveOptions = {
  asker: Asker;
  /** Leaving the page ends the task. */
  signal?: AbortSignal | undefined;
  progress?: ((best: unknown) => void) | undefined;
};

/** How many may wait beside the one that is under way. */
export const mostWaiting = 8;

/** How long a task may take, seconds. */
export const solverSeconds = { member: 20, visitor: 2 } as const;

/** What a task gets on top to hand in its answer before its thread is ended, seconds. */
const grace = 1;

type Waiting = {
  task: number;
  kind: TaskKind;
  input: unknown;
  options: SolveOptions;
  best?: unknown;
  clock?: NodeJS.Timeout;
  settle: (solved: Solved<unknown>) => void;
  fail: (error: Error) => void;
};

export type Solver = {
  solve: <Kind extends TaskKind>(
    kind: Kind,
    input: SolverTasks[Kind]["input"],
    options: SolveOptions,
  ) => Promise<Solved<SolverTasks[Kind]["output"]>>;
  end: () => Promise<void>;
};

/**
 * One thread that solves, one task at a time: members before visitors, each in the order they came,
 * one task per visitor's address, at most eight waiting. The thread starts with the first task and is
 * ended, and another started, where a task is cancelled or passes its time.
 *
 * @param entry what its threads run, `solver.worker.ts` unless said.
 */
export function openSolver(
  seconds: { member: number; visitor: number } = solverSeconds,
  entry?: URL,
): Solver {
  const waiting: Waiting[] = [];
  let current: Waiting | undefined;
  let thread: SolverThread | undefined;
  let ready = false;
  let numbered = 0;

  const secondsOf = ({ options }: Waiting) => seconds[options.asker.member ? "member" : "visitor"];

  function hear(message: FromSolver | undefined, error?: Error): void {
    if (!message) {
      lose(error ?? new Error("the solver's thread is gone"));
      return;
    }
    if (message.says === "ready") {
      ready = true;
      begin();
      return;
    }
    if (!current || message.task !== current.task) return;
    if (message.says === "progress") {
      current.best = message.best;
      current.options.progress?.(message.best);
      return;
    }
    const { settle, fail } = close();
    if (message.says === "done") settle({ kind: "done", output: message.output });
    else fail(new Error(message.error));
    next();
  }

  /** The thread broke by itself: whoever it worked for is told, and the next gets another. */
  function lose(error: Error): void {
    thread = undefined;
    ready = false;
    if (current) close().fail(error);
    next();
  }

  function close(): Waiting {
    const closed = current as Waiting;
    clearTimeout(closed.clock);
    current = undefined;
    thread?.hold(false);
    return closed;
  }

  function next(): void {
    if (current) return;
    const member = waiting.findIndex(({ options }) => options.asker.member);
    [current] = waiting.splice(Math.max(0, member), 1);
    if (!current) return;
    thread ??= startThread(hear, entry);
    thread.hold(true);
    if (ready) begin();
  }

  function begin(): void {
    if (!current || !thread) return;
    const { task, kind, input } = current;
    const limit = secondsOf(current);
    thread.send({ task, kind, input, seconds: limit });
    current.clock = setTimeout(() => stop("clock"), (limit + grace) * 1000);
  }

  /** Nothing but the end of its thread stops a task. */
  function stop(why: "clock" | "cancelled"): void {
    void thread?.end();
    const { best, settle } = close();
    thread = undefined;
    ready = false;
    if (why === "cancelled") settle({ kind: "cancelled" });
    else if (best === undefined) settle({ kind: "nothing", stopped: "clock" });
    else settle({ kind: "stopped", stopped: "clock", best });
    next();
  }

  function busy({ asker }: SolveOptions): number | undefined {
    const all = current ? [current, ...waiting] : waiting;
    const mine = all.find(({ options }) => {
      const { member, address } = options.asker;
      return !asker.member && !member && address === asker.address;
    });
    if (mine) return secondsOf(mine) + grace;
    if (waiting.length < mostWaiting) return undefined;
    return Math.ceil(all.reduce((sum, each) => sum + secondsOf(each), 0) / 4);
  }

  function cancel(task: number): void {
    if (current?.task === task) {
      stop("cancelled");
      return;
    }
    const at = waiting.findIndex((each) => each.task === task);
    for (const { settle } of at < 0 ? [] : waiting.splice(at, 1)) settle({ kind: "cancelled" });
  }

  return {
    solve: (kind, input, options) => {
      type Output = SolverTasks[typeof kind]["output"];
      const retryAfterSeconds = busy(options);
      if (retryAfterSeconds !== undefined)
        return Promise.resolve({ kind: "busy", retryAfterSeconds });
      if (options.signal?.aborted) return Promise.resolve({ kind: "cancelled" });
      return new Promise<Solved<Output>>((resolve, reject) => {
        const task = ++numbered;
        const leave = () => cancel(task);
        options.signal?.addEventListener("abort", leave, { once: true });
        const closing =
          <T>(then: (value: T) => void) =>
          (value: T) => {
            options.signal?.removeEventListener("abort", leave);
            then(value);
          };
        waiting.push({
          task,
          kind,
          input,
          options,
          settle: closing((solved) => resolve(solved as Solved<Output>)),
          fail: closing(reject),
        });
        next();
      });
    },
    end: async () => {
      for (const { settle } of waiting.splice(0)) settle({ kind: "cancelled" });
      if (current) close().settle({ kind: "cancelled" });
      const ending = thread;
      thread = undefined;
      ready = false;
      await ending?.end();
    },
  };
}

/** The process's own solver; the app ends it when it stops. */
export const solver: Solver = openSolver();
