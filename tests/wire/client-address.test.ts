import type { IncomingMessage } from "node:http";
import { describe, expect, it } from "vitest";
import { clientAddresses } from "../../src/wire/client-address.ts";
import type { Ctx } from "../../src/wire/context.ts";

const from = (remoteAddress: string, forwarded?: string): Ctx => {
  const incoming = {
    socket: { remoteAddress },
    headers: { ...(forwarded && { "x-forwarded-for": forwarded }) },
  };
  return { env: { incoming: incoming as unknown as IncomingMessage } } as Ctx;
};

describe("the address of who asks", () => {
  it("is the connection's where no proxy is trusted, whatever a header says", () => {
    expect(clientAddresses([])(from("203.0.113.9", "198.51.100.1"))).toBe("203.0.113.9");
  });

  it("is the last that no trusted proxy vouches for", () => {
    const addressOf = clientAddresses(["10.0.0.0/8"]);
    expect(addressOf(from("10.1.2.3", "192.0.2.66, 198.51.100.7, 10.9.9.9"))).toBe("198.51.100.7");
  });
});
