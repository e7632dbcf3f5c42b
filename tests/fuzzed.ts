/** What nobody would type, and somebody will. */
const hostile: unknown[] = [
  ...["", " ", "\u0000", "\ud800", "🙂".repeat(40), "‮erutxim", "'; drop table recipes; --"],
  ...['"><script>alert(1)</script>', "../../etc/passwd", "%s%n", "__proto__", "null"],
  ...["x".repeat(70_000), "NaN", "Infinity", "1e400", "-0", "1,5", "0x10", "９"],
  ...[-1, 0, 1e308, 0.1 + 0.2, null, true, [], {}, [[[]]], { __proto__: { role: "manager" } }],
  ...["2026-02-30", "9999999-01-01T00:00:00Z", "00000000-0000-0000-0000-000000000000"],
];

const asked = [
  ...["after", "revision", "q", "cone", "use", "grams", "scaleGrams", "region", "from", "size"],
  ...["left", "right", "colour", "gravity", "kg", "unit", "amount", "have", "to", "show", "format"],
  ...["budget", "currency", "plans", "shares", "set", "hold", "limit", "since", "by", "with"],
];

const types = [
  "application/json",
  "application/json",
  "application/json; charset=utf-8",
  "application/x-www-form-urlencoded",
  "multipart/form-data; boundary=x",
  "text/csv",
  "text/plain",
  "",
];

export type Fuzzed = { path: string; init: RequestInit };

/** A request made crooked: the same for the same draws of `random`, from 0 to below 1. */
export function fuzzed(
  random: () => number,
  { method, at, send }: { method: string; at: string; send: unknown },
): Fuzzed {
  const chance = (of: number) => random() < of;
  const pick = <T>(from: readonly T[]): T => from[Math.floor(random() * from.length)] as T;
  const bad = () => pick(hostile);

  const bend = (value: unknown, depth = 0): unknown => {
    if (chance(0.12)) return bad();
    if (Array.isArray(value)) return value.map((each) => bend(each, depth + 1));
    if (typeof value !== "object" || value === null) return value;
    const fields = Object.entries(value)
      .filter(() => !chance(0.08))
      .map(([name, each]) => [name, bend(each, depth + 1)]);
    if (chance(0.08)) fields.push([pick(["role", "id", "__proto__", "owner", "x"]), bad()]);
    return Object.fromEntries(fields);
  };

  const path = at
    .split("/")
    .map((segment) =>
      segment !== "" && chance(0.06)
        ? encodeURIComponent(well(String(bad()))).slice(0, 4000)
        : segment,
    )
    .join("/");
  const query = Array.from({ length: chance(0.4) ? 1 + Math.floor(random() * 3) : 0 }, () => [
    pick(asked),
    well(String(bad())).slice(0, 300),
  ]);
  const headers: Record<string, string> = {
    accept: chance(0.6) ? "application/json" : "text/html",
    origin: chance(0.9) ? "http://localhost" : "http://elsewhere.example",
    ...(chance(0.15) && {
      "idempotency-key": chance(0.5) ? `key-${Math.floor(random() * 5)}` : "x",
    }),
    ...(chance(0.1) && { "hx-request-type": "partial" }),
    ...(chance(0.1) && { "if-none-match": '"x"' }),
  };
  const init: RequestInit = { method, headers };
  if (method !== "GET" && !chance(0.05)) {
    const type = chance(0.75) ? "application/json" : pick(types);
    if (type !== "") headers["content-type"] = type;
    init.body = bodyOf(type, chance(0.3) ? send : bend(send ?? {}), chance(0.05));
  }
  const search = new URLSearchParams(query as [string, string][]).toString();
  return { path: search === "" ? path : `${path}${path.includes("?") ? "&" : "?"}${search}`, init };
}

/** A lone surrogate cannot stand in an address. */
const well = (text: string): string => text.replace(/[\ud800-\udfff]/gu, "?");

function bodyOf(type: string, value: unknown, broken: boolean): string {
  const json = JSON.stringify(value) ?? "";
  if (broken) return json.slice(0, Math.floor(json.length / 2));
  if (type.startsWith("application/json")) return json;
  if (!type.startsWith("application/x-www-form")) return json;
  const flat = typeof value === "object" && value !== null ? Object.entries(value) : [];
  return new URLSearchParams(flat.map(([name, each]) => [name, String(each)])).toString();
}
