import { readConfig } from "./config.ts";
import { serveStudio } from "./serve.ts";

try {
  const studio = await serveStudio(readConfig(process.env));
  for (const line of studio.welcome) console.log(line);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}
