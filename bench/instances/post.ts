import { once } from "node:events";
import { SMTPServer } from "smtp-server";
import { until } from "../sheets/waiting.ts";

/** A mail server that takes everything and counts it. */
export async function listenForMail(port: number) {
  let letters = 0;
  const server = new SMTPServer({
    authOptional: true,
    disabledCommands: ["STARTTLS"],
    onData(stream, _, done) {
      stream.resume();
      stream.once("end", () => {
        letters += 1;
        done();
      });
    },
  });
  server.listen(port, "127.0.0.1");
  await once(server.server, "listening");
  return {
    url: `smtp://127.0.0.1:${port}`,
    letters: () => letters,
    untilOne: (seconds: number) => until("a letter", async () => letters > 0, seconds),
    close: () => new Promise<void>((resolve) => server.close(resolve)),
  };
}
