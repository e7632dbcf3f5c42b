import { serveDemo, whole } from "./demo/serving.ts";
import { readSettings } from "./demo/settings.ts";

try {
  const studio = await serveDemo(readSettings(process.argv.slice(2), process.env));
  for (const line of studio.welcome) console.log(line);
  await studio.prepared;
  console.log(whole);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
