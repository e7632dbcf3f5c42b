import type { Mutant } from "./mutant.ts";

/** Bugs of what every request goes through. */
export const wireMutants: readonly Mutant[] = [
  {
    name: "forms-from-anywhere",
    file: "src/wire/guards.ts",
    before:
      'if (isJson(type) || isCsv(type) || (method !== "POST" && !isForm(type))) return next();',
    after: "if (isJson(type) || isCsv(type) || isForm(type)) return next();",
    breaks: "A page of another site can send forms in the name of whoever is signed in.",
    tests: ["tests/routes/recipes.test.ts"],
  },
  {
    name: "post-without-a-type-from-anywhere",
    file: "src/wire/guards.ts",
    before: '(method !== "POST" && !isForm(type))) return next();',
    after: "!isForm(type)) return next();",
    breaks: "Another site can POST plain text or nothing, such as to sign somebody out.",
    tests: ["tests/routes/session.test.ts", "tests/wire/body.test.ts"],
  },
  {
    name: "pages-for-everybody",
    file: "src/wire/guards.ts",
    before: `c.res.headers.set("Cache-Control", "private, no-cache");`,
    after: `c.res.headers.set("Cache-Control", "public, max-age=3600");`,
    breaks: "A cache between keeps one person's page and hands it to another.",
    tests: ["tests/routes/caches.test.ts"],
  },
  {
    name: "same-for-whoever-asks",
    file: "src/wire/guards.ts",
    before: `"Accept, HX-Request-Type, Cookie"`,
    after: `"Accept, HX-Request-Type"`,
    breaks: "A cache takes a page of somebody signed in for one of everybody.",
    tests: ["tests/routes/caches.test.ts"],
  },
  {
    name: "framed-by-anybody",
    file: "src/wire/guards.ts",
    before: `frameAncestors: ["'none'"],`,
    after: "",
    breaks: "Another site can show the studio in a frame under its own buttons.",
    tests: ["tests/routes/health.test.ts"],
  },
  {
    name: "feed-not-escaped",
    file: "src/wire/atom.ts",
    before: '.replace(/[&<>"]/g, (mark)',
    after: '.replace(/[>"]/g, (mark)',
    breaks: "A name with an ampersand or an angle bracket breaks a feed, or puts its own marks in.",
    tests: ["tests/routes/feeds.test.ts"],
  },
  {
    name: "formula-in-a-spreadsheet",
    file: "src/wire/csv.ts",
    before: "/^[=+\\-@\\t\\r]/",
    after: "/^[+\\-@\\t\\r]/",
    breaks: "What somebody typed with an equals sign is carried out in a spreadsheet.",
    tests: ["tests/wire/csv.test.ts"],
  },
  {
    name: "passwords-guessed-for-ever",
    file: "src/db/sign-in-attempts.ts",
    before: "failures > (limits[keys.indexOf(key)] ?? 0)",
    after: "failures > 1_000",
    breaks: "Nobody who tries password after password is ever made to wait.",
    tests: ["tests/routes/session-attempts.test.ts"],
  },
];
