import { randomUUID } from "node:crypto";
import type { App } from "../sheets/app.ts";
import { until } from "../sheets/waiting.ts";
import { answeredBy } from "./proxy.ts";

export const password = "a wide shallow bowl";

export type Answer = {
  status: number;
  json: Record<string, unknown>;
  /** The instance that answered, where a proxy says it. */
  by: string;
};

type Sent = { method?: string; json?: unknown; key?: string; accept?: string };

/** Somebody's browser: it keeps its cookies, wherever it asks. */
export class Person {
  readonly #cookies = new Map<string, string>();
  readonly name: string;
  readonly email: string;

  constructor(name: string) {
    this.name = name;
    this.email = `${name.toLowerCase().replace(/\W+/g, ".")}@saltmarsh.example`;
  }

  async ask(origin: string, path: string, sent: Sent = {}): Promise<Answer> {
    const { method = sent.json === undefined ? "GET" : "POST", json, key } = sent;
    const answer = await fetch(`${origin}${path}`, {
      method,
      redirect: "manual",
      headers: {
        accept: sent.accept ?? "application/json",
        cookie: [...this.#cookies].map((pair) => pair.join("=")).join("; "),
        ...(json !== undefined && { "content-type": "application/json" }),
        ...(key !== undefined && { "idempotency-key": key }),
      },
      ...(json !== undefined && { body: JSON.stringify(json) }),
    });
    for (const line of answer.headers.getSetCookie()) {
      const [name = "", ...value] = line.split(";")[0]?.split("=") ?? [];
      this.#cookies.set(name, value.join("="));
    }
    const text = await answer.text();
    const isJson = answer.headers.get("content-type")?.includes("json") && text !== "";
    return {
      status: answer.status,
      json: isJson ? JSON.parse(text) : {},
      by: answer.headers.get(answeredBy) ?? "",
    };
  }

  /** Asks for what has to be answered. */
  async get<T>(origin: string, path: string): Promise<T> {
    const { status, json } = await this.ask(origin, path);
    if (status !== 200) throw new Error(`${path} answered ${status}: ${JSON.stringify(json)}`);
    return json as T;
  }

  /** Sends what has to be taken. */
  async send(origin: string, path: string, json: unknown, method = "POST"): Promise<Answer> {
    const answer = await this.ask(origin, path, { method, json });
    if (answer.status >= 400)
      throw new Error(`${path} answered ${answer.status}: ${JSON.stringify(answer.json)}`);
    return answer;
  }

  join = (origin: string, invite: string) =>
    this.send(origin, "/people", { invite, name: this.name, email: this.email, password });

  signIn = (origin: string) => this.send(origin, "/session", { email: this.email, password });
}

/** A recipe for cone 6, as it is sent. */
export const recipeOf = (name: string) => ({
  name,
  shownTo: "public",
  revision: {
    ...{
      message: "first",
      use: "decorative",
      atmosphere: "oxidation",
      surface: "gloss",
      about: "",
    },
    cones: { low: "6", high: "6" },
    lines: [
      { part: "base", material: "potash-feldspar", amount: "50" },
      { part: "base", material: "whiting", amount: "20" },
      { part: "base", material: "quartz", amount: "30" },
    ],
  },
});

/** The first manager, with three powders on the shelf and a member whom she invited. */
export async function openStudio(origin: string, app: App) {
  const invite = () => /[?&]invite=([\w-]+)/.exec(app.said)?.[1];
  await until("the first start prints a link to join by", async () => invite() !== undefined);
  const manager = new Person("Ines Okafor");
  await manager.join(origin, invite() ?? "");
  for (const [name, formula] of [
    ["Potash feldspar", "K2O·Al2O3·6SiO2"],
    ["Whiting", "CaCO3"],
    ["Quartz", "SiO2"],
  ])
    await manager.send(origin, "/materials", { name, kind: "mineral", formula });
  const { json } = await manager.send(origin, "/invites", { role: "member" });
  const member = new Person("Jonah Brackley");
  await member.join(origin, String(json.link));
  return { manager, member };
}

/** Publishes a recipe; undefined where no answer came, so that nobody knows whether it was kept. */
export async function publish(
  person: Person,
  origin: string,
  name: string,
): Promise<{ slug: string; by: string } | { refused: number } | undefined> {
  const sent = { json: recipeOf(name), key: randomUUID() };
  const answer = await person.ask(origin, "/recipes", sent).catch(() => undefined);
  if (!answer || answer.status === 502) return undefined;
  if (answer.status !== 201) return { refused: answer.status };
  return { slug: String(answer.json.slug), by: answer.by };
}
