import { Agent, get } from "node:http";

export type Load = {
  perSecond: number;
  /** Milliseconds of one answer, from asking to its last byte. */
  median: number;
  p99: number;
};

type Wanted = { headers: Record<string, string>; requests: number; atOnce: number };

/** Asks for one page so many times, so many at once over connections that stay open. */
export async function load(url: string, { headers, requests, atOnce }: Wanted): Promise<Load> {
  const agent = new Agent({ keepAlive: true, maxSockets: atOnce });
  const took = new Float64Array(requests);
  let sent = 0;
  const askOn = async () => {
    while (sent < requests) {
      const place = sent++;
      const start = performance.now();
      await ask(url, headers, agent);
      took[place] = performance.now() - start;
    }
  };
  const start = performance.now();
  await Promise.all(Array.from({ length: atOnce }, askOn));
  const seconds = (performance.now() - start) / 1000;
  agent.destroy();
  const sorted = took.sort();
  const at = (share: number) => sorted[Math.floor((requests - 1) * share)] ?? Number.NaN;
  return { perSecond: requests / seconds, median: at(0.5), p99: at(0.99) };
}

const ask = (url: string, headers: Record<string, string>, agent: Agent): Promise<void> =>
  new Promise((resolve, reject) => {
    get(url, { agent, headers }, (answer) => {
      if (answer.statusCode !== 200) reject(new Error(`${url} answered ${answer.statusCode}`));
      answer.on("end", resolve).on("error", reject).resume();
    }).on("error", reject);
  });
