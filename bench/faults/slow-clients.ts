import { mkdtempSync, readdirSync, rmSync } from "node:fs";
import { connect, type Socket } from "node:net";
import { tmpdir } from "node:os";
import { join } from "node:path";
import sharp from "sharp";
import { pictureForm } from "../../tests/camera.ts";
import { fireTile } from "../../tests/evidence.ts";
import { startApp } from "../sheets/app.ts";
import { waited } from "../sheets/waiting.ts";
import { onEachEngine } from "./sheets/engines.ts";
import { promised } from "./sheets/promises.ts";
import { openStudio, type Studio } from "./sheets/studio.ts";

const requestSeconds = 6;
const each = 60;

/** Many who send a byte a second, and some who ask for an export and read nothing of it. */
const spooled = mkdtempSync(join(tmpdir(), "bucket-spooled-"));
await onEachEngine(async ({ name, variables }) => {
  const bounds = { REQUEST_SECONDS: `${requestSeconds}`, TMPDIR: spooled };
  const studio = await openStudio(await startApp({ ...variables, ...bounds }));
  await hangPictures(studio);
  const head = (first: string) => `${first}\r\nHost: studio\r\nCookie: ${studio.cookie}\r\n`;
  const json = "Content-Type: application/json\r\nContent-Length: 4000\r\n\r\n";
  const slow = {
    "heads byte by byte": many(studio, head("GET /recipes HTTP/1.1"), "X-A: b\r\n"),
    "bodies byte by byte": many(studio, head("POST /materials HTTP/1.1") + json, "{"),
  };
  // Whoever reads nothing hears nothing of the end either: what tells is the export's own files.
  const readers = Array.from({ length: 3 }, () => {
    const socket = opened(studio).pause();
    socket.write(`${head("GET /export HTTP/1.1")}\r\n`);
    return socket;
  });
  const underWay = await waited(() => exportsOf().length === readers.length, 10);
  const asked = await Promise.all(Array.from({ length: 10 }, () => studio.ask("/recipes")));
  const longest = Math.max(...asked.map(({ seconds }) => seconds));
  const fine = asked.every(({ status }) => status === 200);
  promised(
    name,
    "others are answered meanwhile",
    fine && longest < 5,
    `10 pages, the slowest ${longest.toFixed(1)} s`,
  );
  for (const [who, sockets] of Object.entries(slow)) {
    let ended = 0;
    for (const one of sockets) void one.ended.then(() => (ended += 1));
    const { seconds } = await waited(() => ended === sockets.length, 30);
    promised(
      name,
      `${who} are ended by a bound`,
      ended === sockets.length,
      `${ended} of ${sockets.length}, waited ${seconds.toFixed(0)} s more`,
    );
  }
  const gone = await waited(() => exportsOf().length === 0, 30);
  promised(
    name,
    "readers that read nothing are ended by a bound, and nothing of their export stays",
    underWay.came && gone.came,
    `${exportsOf().length} of ${readers.length} left, waited ${gone.seconds.toFixed(0)} s more`,
  );
  for (const reader of readers) reader.destroy();
  const after = await studio.ask(`/recipes/${studio.recipe}`);
  promised(
    name,
    "it goes on as ever",
    after.status === 200,
    `${after.status} after ${after.seconds.toFixed(1)} s`,
  );
  await studio.app.end("SIGKILL");
});
rmSync(spooled, { recursive: true, force: true });

function opened(studio: Studio): Socket {
  const { hostname, port } = new URL(studio.app.url);
  const socket = connect(Number(port), hostname);
  socket.on("error", () => {});
  return socket;
}

function exportsOf(): string[] {
  return readdirSync(spooled).filter((name) => name.startsWith("bucket-export-"));
}

function onceEnded(socket: Socket): Promise<void> {
  return new Promise((resolve) => {
    socket.once("close", () => resolve());
    socket.once("end", () => resolve());
  });
}

function many(studio: Studio, begin: string, more: string) {
  return Array.from({ length: each }, () => {
    const socket = opened(studio);
    const ended = onceEnded(socket);
    socket.resume();
    socket.write(begin);
    const drip = setInterval(() => socket.writable && socket.write(more), 1000);
    void ended.then(() => clearInterval(drip));
    return { socket, ended };
  });
}

/** Enough that no buffer on the way holds an export: pictures of noise, which nothing makes smaller. */
async function hangPictures(studio: Studio): Promise<void> {
  const tile = await fireTile(studio.sends, studio.recipe);
  for (let made = 0; made < 10; made += 1) {
    const noise = { type: "gaussian" as const, mean: 128, sigma: 60 };
    const create = { width: 1600, height: 1600, channels: 3 as const, background: "#888", noise };
    const bytes = await sharp({ create }).jpeg({ quality: 90 }).toBuffer();
    const answer = await studio.ask(`/tiles/${tile}/photos`, {
      form: pictureForm(bytes),
      withinMs: 200_000,
    });
    if (answer.status !== 201) throw new Error(answer.text);
  }
}
