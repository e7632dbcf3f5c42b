import type { Traffic } from "./traffic.ts";

export type Role = "member" | "reviewer" | "manager";

export type Answer = { status: number; what: string; text: string; json: Record<string, unknown> };

type Sent = {
  method?: string;
  json?: unknown;
  form?: FormData | Record<string, string>;
  body?: string;
  type?: string;
  key?: string;
  accept?: string;
  origin?: string;
};

/** Somebody with a browser: an address of their own, and the cookie that they were given. */
export class Person {
  name = "";
  email = "";
  role: Role | "visitor" = "visitor";
  readonly password = "four unrelated words";
  #cookie = "";
  readonly #site: string;
  readonly #address: string;
  readonly traffic: Traffic;

  constructor(site: string, place: number, traffic: Traffic) {
    this.#site = site;
    this.#address = `10.1.${place >> 8}.${place & 255}`;
    this.traffic = traffic;
  }

  get signedIn(): boolean {
    return this.#cookie !== "";
  }

  async send(path: string, sent: Sent = {}): Promise<Answer> {
    const writes = sent.json !== undefined || sent.form || sent.body !== undefined;
    const method = sent.method ?? (writes ? "POST" : "GET");
    const what = `${method} ${path}`;
    const type = sent.type ?? (sent.json === undefined ? undefined : "application/json");
    const headers: Record<string, string> = {
      accept: sent.accept ?? "application/json",
      "x-forwarded-for": this.#address,
      ...(this.#cookie && { cookie: this.#cookie }),
      ...(type && { "content-type": type }),
      ...(sent.form && { origin: sent.origin ?? this.#site }),
      ...(sent.key && { "idempotency-key": sent.key }),
    };
    const { form } = sent;
    const body =
      sent.json !== undefined
        ? JSON.stringify(sent.json)
        : form && !(form instanceof FormData)
          ? new URLSearchParams(form)
          : (form ?? sent.body);
    const init = { method, headers, redirect: "manual", ...(body !== undefined && { body }) };
    try {
      const answer = await fetch(`${this.#site}${path}`, init as RequestInit);
      for (const each of answer.headers.getSetCookie()) this.#keep(each);
      const text = await answer.text();
      this.traffic.answered(answer.status, what, () => text);
      return { status: answer.status, what, text, json: read(text) };
    } catch (error) {
      const says = `${error} ${(error as { cause?: unknown }).cause ?? ""}`;
      this.traffic.fault(`${what} was not answered: ${says}`);
      return { status: 0, what, text: says, json: {} };
    }
  }

  /** The bytes of what is too large or too binary to read as text. */
  async fetchBytes(path: string): Promise<{ status: number; what: string; bytes: Uint8Array }> {
    const headers = { "x-forwarded-for": this.#address, cookie: this.#cookie };
    const what = `GET ${path}`;
    try {
      const answer = await fetch(`${this.#site}${path}`, { headers });
      const bytes = new Uint8Array(await answer.arrayBuffer());
      this.traffic.answered(answer.status, what, () => "");
      return { status: answer.status, what, bytes };
    } catch (error) {
      this.traffic.fault(`${what} was not answered: ${error}`);
      return { status: 0, what, bytes: new Uint8Array() };
    }
  }

  async join(invite: string, name: string, role: Role): Promise<boolean> {
    const email = `${name.toLowerCase().replace(/[^a-z0-9]+/g, "-")}@saltmarsh.example`;
    const { password } = this;
    const joined = await this.send("/people", { json: { invite, name, email, password } });
    if (!this.traffic.expect(joined, 201)) return false;
    Object.assign(this, { name, email, role });
    return true;
  }

  signIn(): Promise<Answer> {
    const { email, password } = this;
    return this.send("/session", { json: { email, password } });
  }

  signOut(): Promise<Answer> {
    return this.send("/session", { method: "DELETE" });
  }

  /** Gives up this browser's account, as a visitor has none. */
  leave(): void {
    this.role = "visitor";
    this.#cookie = "";
  }

  #keep(cookie: string): void {
    const [pair = ""] = cookie.split(";");
    if (pair.startsWith("bucket_session=")) this.#cookie = pair === "bucket_session=" ? "" : pair;
  }
}

function read(text: string): Record<string, unknown> {
  try {
    return JSON.parse(text) as Record<string, unknown>;
  } catch {
    return {};
  }
}
