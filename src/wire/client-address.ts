import type { IncomingMessage } from "node:http";
import proxyaddr from "proxy-addr";
import type { Ctx } from "./context.ts";

/**
 * The address a request came from. X-Forwarded-For is believed only as far back as the trusted
 * proxies reach, so that nobody can name an address of their own.
 *
 * @param trusted addresses or networks such as `10.0.0.0/8`.
 */
export function clientAddresses(trusted: readonly string[]): (c: Ctx) => string {
  const trust = proxyaddr.compile([...trusted]);
  return (c) => {
    const incoming: IncomingMessage | undefined = c.env?.incoming;
    return incoming ? proxyaddr(incoming, trust) : "unknown";
  };
}
