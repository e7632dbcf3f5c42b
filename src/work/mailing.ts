import { setTimeout as wait } from "node:timers/promises";
import { createTransport, type Transporter } from "nodemailer";
import type { Db } from "../db/client.ts";
import { findStudio } from "../db/studios.ts";
import { listWaiting, type Waiting } from "../db/waiting.ts";
import { type DueMail, listDueMail, moveMailed } from "../db/wishes.ts";

/** What sends, from which address, and where people reach the studio. */
export type Post = { transport: Pick<Transporter, "sendMail">; from: string; publicUrl: string };

/** What is put on record while a round of mail goes out is told in the next. */
const settledMs = 5_000;
const pauseMs = 60_000;

/**
 * Tells by mail, once, whoever wants it and for whom something waits that they have not been told of.
 * Whoever is to be told is claimed first, so that two instances never send the same; a mail that
 * cannot be sent is tried again in the next round.
 *
 * @returns how many mails were sent.
 */
export async function mailSome(db: Db, post: Post, { now }: { now: Date }): Promise<number> {
  const upTo = new Date(now.getTime() - settledMs);
  let sent = 0;
  for (const due of await listDueMail(db, { now })) {
    const waiting = await listWaiting(db, { reader: due.person, now });
    const news = waiting.filter(({ at }) => at > (due.mailedUpTo ?? new Date(0)) && at <= upTo);
    if (news.length === 0) continue;
    const claim = { personId: due.person.id, from: due.mailedUpTo, to: upTo };
    if (!(await moveMailed(db, claim))) continue;
    try {
      await post.transport.sendMail(await letterOf(db, post, due, news));
      sent += 1;
    } catch (error) {
      await moveMailed(db, { ...claim, from: upTo, to: due.mailedUpTo });
      // No address and no words of the mail in the log: whoever reads it need not know them.
      console.error(`A mail to person ${due.person.id} could not be sent: ${reasonOf(error)}`);
    }
  }
  return sent;
}

async function letterOf(db: Db, post: Post, due: DueMail, news: readonly Waiting[]) {
  const { name: studio } = await findStudio(db);
  const what = news.length === 1 ? "One thing waits" : `${news.length} things wait`;
  const text = [
    `${due.person.name},`,
    "",
    `${what} for you at ${studio}:`,
    "",
    ...news.flatMap(({ says, href }) => [`- ${says}`, `  ${post.publicUrl}${href}`, ""]),
    `All that waits: ${post.publicUrl}/waiting`,
    `You asked for this mail. Turn it off at ${post.publicUrl}/account#telling`,
    "",
  ].join("\n");
  return {
    from: post.from,
    to: { name: due.person.name, address: due.email },
    subject: `${what} for you at ${studio}`,
    text,
    headers: { "Auto-Submitted": "auto-generated" },
  };
}

const reasonOf = (error: unknown): string =>
  error instanceof Error && "code" in error ? String(error.code) : "the server did not take it";

type Settings = {
  smtpUrl: string | undefined;
  mailFrom: string | undefined;
  publicUrl: string | undefined;
};

/** What mail goes out with, or undefined where the studio sends none. */
export function openPost({ smtpUrl, mailFrom, publicUrl }: Settings): Post | undefined {
  if (!smtpUrl || !mailFrom || !publicUrl) return undefined;
  // A server that does not answer must not hold up the end of the app.
  const patience = { connectionTimeout: 10_000, greetingTimeout: 10_000, socketTimeout: 20_000 };
  return { transport: createTransport({ url: smtpUrl, ...patience }), from: mailFrom, publicUrl };
}

/** Sends, beside the requests, the mail that people wish for, each minute. Ends when told to. */
export async function keepMailing(
  db: Db,
  post: Post | undefined,
  { signal }: { signal: AbortSignal },
): Promise<void> {
  while (post && !signal.aborted) {
    await mailSome(db, post, { now: new Date() }).catch((error) =>
      console.error(`What waits for people could not be told by mail: ${error}`),
    );
    await wait(pauseMs, undefined, { signal }).catch(() => {});
  }
}
