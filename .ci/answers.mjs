// Exits 0 where a Postgres answers at the given address.
import postgres from "postgres";

const sql = postgres(process.argv[2], { max: 1, connect_timeout: 5 });
const answered = await sql`select 1`.then(
  () => true,
  () => false,
);
await sql.end({ timeout: 1 });
process.exit(answered ? 0 : 1);
