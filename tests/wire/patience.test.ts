import { once } from "node:events";
import { createServer, type RequestListener, type Server } from "node:http";
import { type AddressInfo, connect, type Socket } from "node:net";
import { afterEach, describe, expect, it } from "vitest";
import { arrivingWithin, endUnread } from "../../src/wire/patience.ts";

const within = 400;

describe("a client that takes its time", () => {
  let server: Server;
  let client: Socket;
  afterEach(async () => {
    client.destroy();
    server.closeAllConnections();
    await new Promise((resolve) => server.close(resolve));
  });

  async function reach(answer: RequestListener): Promise<void> {
    server = createServer(arrivingWithin(within), answer);
    endUnread(server, within);
    server.listen(0, "127.0.0.1");
    await once(server, "listening");
    client = connect((server.address() as AddressInfo).port, "127.0.0.1");
  }

  it.each([
    ["a head", "GET / HTTP/1.1\r\nHost: studio\r\n"],
    ["a body", "POST / HTTP/1.1\r\nHost: studio\r\nContent-Length: 9\r\n\r\nhalf"],
  ])("is ended where %s never comes to its end", async (_, half) => {
    await reach((request, answer) => request.on("end", () => answer.end("whole")).resume());
    client.write(half);
    let said = "";
    for await (const chunk of client) said += chunk;
    // Silently where nothing came for as long, else with the status for it.
    expect(said).toMatch(/^(HTTP\/1\.1 408 .*)?$/s);
  });

  it("is ended where nothing of an answer is taken", async () => {
    const ended = new Promise<string>((resolve) => {
      void reach((_, answer) => {
        const block = Buffer.alloc(1024 * 1024);
        const write = () => {
          while (answer.write(block));
        };
        answer.on("drain", write).on("close", () => resolve("ended"));
        write();
      }).then(() => client.pause().write("GET / HTTP/1.1\r\nHost: studio\r\n\r\n"));
    });
    expect(await ended).toBe("ended");
  });

  it("is waited for while its answer is worked on", async () => {
    await reach((_, answer) => {
      // Beside the bound on who does not read, which comes first.
      answer.on("timeout", () => setImmediate(() => answer.end("whole")));
    });
    client.write("GET / HTTP/1.1\r\nHost: studio\r\nConnection: close\r\n\r\n");
    let said = "";
    for await (const chunk of client) said += chunk;
    expect(said).toMatch(/whole$/);
  });
});
