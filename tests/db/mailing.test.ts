import { eq } from "drizzle-orm";
import { createTransport } from "nodemailer";
import { SMTPServer } from "smtp-server";
import { afterAll, beforeAll, beforeEach, describe, expect, it, vi } from "vitest";
import { wishes } from "../../src/db/schema/index.ts";
import { setMailWish } from "../../src/db/wishes.ts";
import { keepMailing, mailSome, openPost } from "../../src/work/mailing.ts";
import { publish, stockShelf } from "../shelf.ts";
import { openTestStudio, type TestStudio } from "../studio.ts";
import { putRow } from "../waiting.ts";

type Letter = { to: { address: string }[]; subject: string; text: string; headers: object };

const publicUrl = "https://glazes.example";
const from = "glazes@saltmarsh.example";
const minutes = (n: number) => new Date(Date.UTC(2026, 3, 1, 10, n));

describe("mail that tells what waits", () => {
  let studio: TestStudio;
  let letters: Letter[];
  const json = createTransport({ jsonTransport: true });
  const post = {
    publicUrl,
    from,
    transport: {
      sendMail: async (mail: Parameters<typeof json.sendMail>[0]) => {
        const sent = await json.sendMail(mail);
        letters.push(JSON.parse(String((sent as { message: string }).message)));
        return sent;
      },
    },
  } as Parameters<typeof mailSome>[1];

  beforeAll(async () => {
    studio = await openTestStudio();
    await stockShelf(studio);
  });
  afterAll(() => studio.close());
  beforeEach(async () => {
    letters = [];
    await studio.db.delete(wishes);
  });

  const wish = (who: "author" | "other member", mail: "off" | "at once" | "daily") =>
    setMailWish(studio.db, { mail, by: studio.ids[who], at: minutes(0) });
  const object = async (at: Date) => {
    const slug = await publish(studio);
    await putRow(studio, slug, { by: studio.ids.reviewer, blocking: true, at });
    return slug;
  };
  const round = (now: Date) => mailSome(studio.db, post, { now });

  it("goes to nobody who did not ask for it", async () => {
    await object(minutes(1));
    expect(await round(minutes(2))).toBe(0);
    await wish("author", "off");
    expect(await round(minutes(3))).toBe(0);
    await wish("other member", "at once");
    expect(await round(minutes(4))).toBe(0);
    expect(letters).toEqual([]);
  });

  it("tells at once, in one plain letter with links, and each thing once", async () => {
    const slug = await object(minutes(1));
    await wish("author", "at once");
    expect(await round(minutes(2))).toBe(1);
    const [letter] = letters;
    expect(letter).toMatchObject({
      to: [{ address: "rukmini@saltmarsh.example", name: "Rukmini Vale" }],
      from: { address: from },
      subject: expect.stringMatching(
        /^(One thing waits|\d+ things wait) for you at Saltmarsh Lane/,
      ),
    });
    expect(letter?.text).toContain(`${publicUrl}/recipes/${slug}/revisions/1#note-`);
    expect(letter?.text).toContain("Tam Pellew objects to revision 1 of Slack Water");
    expect(letter?.text).toContain(`${publicUrl}/account#telling`);
    expect(letter).not.toHaveProperty("html");
    expect(await round(minutes(3))).toBe(0);

    const next = await object(minutes(4));
    expect(await round(minutes(5))).toBe(1);
    expect(letters[1]?.subject).toMatch(/^One thing waits/);
    expect(letters[1]?.text).toContain(next);
    expect(letters[1]?.text).not.toContain(slug);
  });

  it("tells daily from a day after the last time", async () => {
    await object(minutes(1));
    await wish("author", "daily");
    expect(await round(minutes(2))).toBe(1);
    await object(minutes(10));
    expect(await round(minutes(60))).toBe(0);
    expect(await round(minutes(24 * 60))).toBe(0);
    expect(await round(minutes(24 * 60 + 3))).toBe(1);
    expect(letters).toHaveLength(2);
  });

  it("is sent once by two instances that send at the same moment", async () => {
    await object(minutes(1));
    await wish("author", "at once");
    const rounds = await Promise.all([0, 1, 2].map(() => round(minutes(2))));
    expect(rounds.sort()).toEqual([0, 0, 1]);
    expect(letters).toHaveLength(1);
  });

  it("is tried again where the server did not take it, and says nothing of it in the log", async () => {
    const slug = await object(minutes(1));
    await wish("author", "at once");
    const said = vi.spyOn(console, "error").mockImplementation(() => {});
    const broken = {
      ...post,
      transport: { sendMail: () => Promise.reject(new Error("rukmini@")) },
    };
    expect(await mailSome(studio.db, broken as typeof post, { now: minutes(2) })).toBe(0);
    expect(String(said.mock.calls)).not.toContain("@");
    said.mockRestore();
    expect(await round(minutes(3))).toBe(1);
    expect(letters[0]?.text).toContain(slug);
  });

  it("goes to nobody who left", async () => {
    await object(minutes(1));
    await wish("author", "at once");
    const gone = { method: "PUT", json: { why: "Moved away." } };
    const path = `/people/${studio.ids.author}/removal`;
    expect((await studio.send("manager", path, gone)).status).toBe(200);
    expect(await studio.db.$count(wishes, eq(wishes.personId, studio.ids.author))).toBe(0);
    expect(await round(minutes(2))).toBe(0);
  });

  it("is not sent without a server, a sender and the studio's address", () => {
    const smtpUrl = "smtp://localhost:1";
    const whole = { smtpUrl, mailFrom: from, publicUrl };
    expect(openPost(whole)).toMatchObject({ from, publicUrl });
    for (const name of ["smtpUrl", "mailFrom", "publicUrl"] as const)
      expect(openPost({ ...whole, [name]: undefined }), name).toBeUndefined();
  });

  it("arrives at a mail server, and stops with the app", async () => {
    const arrived: string[] = [];
    let sentOne = () => {};
    const first = new Promise<void>((resolve) => {
      sentOne = resolve;
    });
    const server = new SMTPServer({
      authOptional: true,
      disabledCommands: ["STARTTLS"],
      onData(stream, _, done) {
        let text = "";
        stream.on("data", (chunk) => {
          text += chunk;
        });
        stream.on("end", () => {
          arrived.push(text);
          done();
          sentOne();
        });
      },
    });
    await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
    const { port } = server.server.address() as { port: number };
    const slug = await publish(studio, { who: "manager" });
    await putRow(studio, slug, { by: studio.ids.reviewer, blocking: true, at: minutes(1) });
    await setMailWish(studio.db, { mail: "at once", by: studio.ids.manager, at: minutes(1) });
    const ending = new AbortController();
    const smtpUrl = `smtp://127.0.0.1:${port}`;
    const running = keepMailing(studio.db, openPost({ smtpUrl, mailFrom: from, publicUrl }), {
      signal: ending.signal,
    });
    await first;
    ending.abort();
    await running;
    await new Promise<void>((resolve) => server.close(resolve));
    expect(arrived).toHaveLength(1);
    expect(arrived[0]).toContain("To: Ines Okafor <ines@saltmarsh.example>");
    expect(arrived[0]).toContain("Auto-Submitted: auto-generated");
  });
});
