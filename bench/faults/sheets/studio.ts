import { publish, stockShelf } from "../../../tests/shelf.ts";
import type { TestStudio } from "../../../tests/studio.ts";
import type { App } from "../../sheets/app.ts";
import { until } from "../../sheets/waiting.ts";

/** Nothing that the app bounds may take longer than this; what does is said to hang. */
export const hangsAfterMs = 30_000;

type Sent = {
  method?: string;
  json?: unknown;
  form?: FormData;
  accept?: string;
  key?: string;
  withinMs?: number;
};

export type Answer = { status: number; type: string; text: string; seconds: number };

/** A studio whose first manager asks over the network, as a browser does. */
export class Studio {
  app: App;
  cookie = "";
  recipe = "";

  constructor(app: App) {
    this.app = app;
  }

  fetch(path: string, { key, ...sent }: Sent = {}): Promise<Response> {
    const { json, form, accept = "application/json", withinMs = hangsAfterMs } = sent;
    const { url } = this.app;
    return fetch(`${url}${path}`, {
      method: sent.method ?? (json || form ? "POST" : "GET"),
      redirect: "manual",
      signal: AbortSignal.timeout(withinMs),
      headers: {
        ...{ cookie: this.cookie, accept, origin: url },
        ...(json !== undefined && { "content-type": "application/json" }),
        ...(key && { "idempotency-key": key }),
      },
      ...(json !== undefined && { body: JSON.stringify(json) }),
      ...(form && { body: form }),
    });
  }

  /** @throws where nothing answered, or not in time. */
  async ask(path: string, sent: Sent = {}): Promise<Answer> {
    const start = performance.now();
    const answer = await this.fetch(path, sent);
    const text = await answer.text();
    const type = answer.headers.get("content-type") ?? "";
    return { status: answer.status, type, text, seconds: (performance.now() - start) / 1000 };
  }

  /** For the helpers of the tests, which know no more of a studio than this. */
  get sends(): TestStudio {
    const send = (_: string, path: string, sent: Sent) => this.fetch(path, sent);
    return { send } as unknown as TestStudio;
  }
}

export const password = "a-kiln-at-cone-six";
export const email = "ines@saltmarsh.example";

/** Joins as the first manager by the link that the app printed, and publishes a recipe. */
export async function openStudio(app: App): Promise<Studio> {
  const studio = new Studio(app);
  const invited = () => /people\/new\?invite=(\S+)\n/.exec(app.said)?.[1];
  await until("the first start prints a link to join by", () => invited() !== undefined, 10);
  const invite = invited();
  const json = { invite, name: "Ines Okafor", email, password };
  const joined = await studio.fetch("/people", { json });
  if (joined.status !== 201) throw new Error(await joined.text());
  studio.cookie = joined.headers.get("set-cookie")?.split(";")[0] ?? "";
  await stockShelf(studio.sends);
  studio.recipe = await publish(studio.sends);
  return studio;
}

/** Refused in words: problem+json with a sentence, or a page with one. */
export const inWords = ({ type, text }: Answer): boolean =>
  type.includes("problem+json")
    ? /^[A-Z].*\.$/s.test(JSON.parse(text).detail)
    : type.includes("text/html") && /<h1[^>]*>[^<]+<\/h1>/.test(text);
