import { once } from "node:events";
import { createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import type { App } from "../sheets/app.ts";

/** A proxy that hands requests to instances in turn, as any that stands before several does. */
export type Between = {
  url: string;
  /** Hands requests to these from now on. */
  to: (instances: readonly App[]) => void;
  close: () => Promise<void>;
};

/** The header by which an answer says which instance it comes from. */
export const answeredBy = "x-answered-by";

/**
 * A request is handed to the next instance where one does not take the connection at all. Once it was
 * taken, nobody knows whether it was carried out, and whoever asked is told so with 502.
 */
export async function startProxy(port: number): Promise<Between> {
  let instances: readonly App[] = [];
  let turn = 0;
  const server = createServer(async (incoming, outgoing) => {
    const chunks: Buffer[] = [];
    for await (const chunk of incoming) chunks.push(chunk);
    const body = Buffer.concat(chunks);
    const order = instances.map((_, place) => instances[(turn + place) % instances.length]!);
    turn += 1;
    for (const instance of order) {
      const how = await hand(instance, incoming, body, outgoing);
      if (how !== "not taken") return;
    }
    outgoing.writeHead(503).end();
  });
  server.listen(port, "127.0.0.1");
  await once(server, "listening");
  return {
    url: `http://127.0.0.1:${(server.address() as AddressInfo).port}`,
    to: (next) => {
      instances = next;
    },
    async close() {
      server.closeAllConnections();
      server.close();
      await once(server, "close");
    },
  };
}

const hand = (
  { url, name }: App,
  { method, headers, url: path = "/" }: IncomingMessage,
  body: Buffer,
  outgoing: ServerResponse,
): Promise<"answered" | "not taken" | "broken off"> =>
  new Promise((resolve) => {
    const breakOff = () => {
      if (outgoing.headersSent) outgoing.destroy();
      else outgoing.writeHead(502).end();
      resolve("broken off");
    };
    const asked = request(new URL(path, url), { method, headers, agent: false }, (answer) => {
      outgoing.writeHead(answer.statusCode ?? 502, { ...answer.headers, [answeredBy]: name });
      answer.pipe(outgoing);
      answer.once("end", () => resolve("answered"));
      answer.once("error", breakOff);
    });
    asked.once("error", (error) => {
      if ("code" in error && error.code === "ECONNREFUSED") resolve("not taken");
      else breakOff();
    });
    asked.end(body);
  });
