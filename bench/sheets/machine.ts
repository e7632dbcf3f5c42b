import { availableParallelism, totalmem } from "node:os";
import postgres from "postgres";

/** What the numbers were measured on, with nothing that names the machine. */
export async function tellMachine(): Promise<string> {
  const memory = Math.round(totalmem() / 2 ** 30);
  const parts = [
    `${availableParallelism()} cores`,
    `${memory} GB of memory`,
    `Node ${process.versions.node}`,
    await postgresVersion(process.env.TEST_DATABASE_URL),
  ];
  return parts.join(", ");
}

async function postgresVersion(url: string | undefined): Promise<string> {
  if (!url) return "no Postgres";
  const client = postgres(url, { max: 1, onnotice: () => {} });
  const [row] = await client<{ server_version: string }[]>`show server_version`;
  await client.end();
  return `Postgres ${row?.server_version.split(" ")[0]} on the same machine`;
}
