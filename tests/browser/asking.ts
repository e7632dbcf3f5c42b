import type { BrowserContext } from "playwright-core";

/** Reads JSON at a path, or posts some there. */
export type Ask = <Answer>(path: string, data?: object) => Promise<Answer>;

/** Asks as whoever is signed in there; what is refused fails the test with the answer. */
export const asking =
  (context: BrowserContext, url: string): Ask =>
  async <Answer>(path: string, data?: object): Promise<Answer> => {
    const answer = await context.request.fetch(url + path, {
      method: data ? "POST" : "GET",
      headers: { accept: "application/json", "content-type": "application/json" },
      ...(data && { data }),
    });
    if (!answer.ok()) throw new Error(`${path}: ${await answer.text()}`);
    return (await answer.json()) as Answer;
  };
