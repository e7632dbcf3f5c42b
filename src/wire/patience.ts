import type { Server, ServerOptions } from "node:http";

/**
 * How long a request may take to come in: a byte now and then would keep a connection for good. Its head
 * has 20 seconds at most.
 */
export const arrivingWithin = (milliseconds: number): ServerOptions => ({
  requestTimeout: milliseconds,
  headersTimeout: Math.min(20_000, milliseconds),
  connectionsCheckingInterval: Math.min(5_000, milliseconds / 2),
});

/**
 * Whoever takes nothing of an answer for so long gets no more of it. One that is still worked on may take
 * longer: nothing of it waits to be read.
 */
export function endUnread(server: Server, milliseconds: number): void {
  server.setTimeout(milliseconds);
  server.on("request", (_, answer) =>
    answer.on("timeout", () => {
      if (answer.writableLength > 0) answer.socket?.destroy();
    }),
  );
}
