import { defineConfig } from "vitest/config";
import { findEngines } from "./tests/engines/find.ts";

export default defineConfig(async () => {
  const { postgres, chromium, leftOut } = await findEngines();
  if (leftOut.length > 0) console.log(`Left out: ${leftOut.join("; ")}.`);
  else console.log("Nothing is left out: both engines and the browser are here.");

  // Files share the modules of their worker: none keeps anything of one studio for the next.
  const shared = {
    testTimeout: 60_000,
    hookTimeout: 120_000,
    isolate: false,
    setupFiles: ["tests/seed.ts"],
  };
  const stored = ["tests/db/**/*.test.ts", "tests/routes/**/*.test.ts", "tests/demo/**/*.test.ts"];
  // Who may do what does not depend on the engine, and asking it of every call takes long.
  const onceIsEnough = ["permissions", "fuzz", "hostile-texts"].map(
    (name) => `tests/routes/${name}.test.ts`,
  );
  const onEngine = (name: "embedded" | "postgres") => ({
    test: {
      ...shared,
      name,
      include: stored,
      exclude: postgres && name === "embedded" ? onceIsEnough : [],
      env: { BUCKET_ENGINE: name },
      globalSetup: `./tests/engines/${name}.ts`,
    },
  });
  return {
    test: {
      maxWorkers: 2,
      expect: { requireAssertions: true },
      projects: [
        {
          test: {
            ...shared,
            name: "pure",
            include: [
              "tests/chem/**/*.test.ts",
              "tests/views/**/*.test.{ts,tsx}",
              "tests/wire/**/*.test.ts",
              "tests/work/**/*.test.ts",
              "tests/house/**/*.test.ts",
            ],
          },
        },
        onEngine("embedded"),
        ...(postgres ? [onEngine("postgres")] : []),
        ...(chromium
          ? [
              {
                test: {
                  ...shared,
                  testTimeout: 120_000,
                  name: "browser",
                  include: ["tests/browser/**/*.test.ts"],
                  globalSetup: "./tests/engines/demo.ts",
                },
              },
            ]
          : []),
      ],
    },
  };
});
