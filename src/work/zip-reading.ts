import { once } from "node:events";
import { stat } from "node:fs/promises";
import { type Readable, Transform } from "node:stream";
import { crc32 } from "node:zlib";
import yauzl from "yauzl";

/** Why a file cannot be taken, with the place, as a sentence for whoever brought it. */
export class FileFault extends Error {}

export type ZipSource = { path: string } | { bytes: Uint8Array };

/** What is taken at all: everything else is refused before a byte of it is unpacked. */
export type ZipLimits = {
  mostEntries: number;
  /** How large a file of that name may be when unpacked; undefined where no such file belongs in here. */
  mostBytes: (name: string) => number | undefined;
};

/** What a file may grow to when unpacked: rows of text come to some thirtyfold. */
const mostGrowth = 200;
const growthStartsAt = 1024 * 1024;

export type ZipEntry = { name: string; bytes: number; stored: boolean };

export type OpenZip = {
  /** In the order in which the zip lists them. */
  entries: readonly ZipEntry[];
  /**
   * A file's bytes as they are unpacked. The stream fails with a `FileFault` where they are not what
   * the zip says of them.
   */
  read: (name: string) => Promise<Readable>;
  close: () => void;
};

/**
 * Opens a zip without trusting it: names are checked against `limits`, doubled names, encryption,
 * unusual packing, files that lie over each other and files that would grow beyond measure are refused.
 *
 * @throws {FileFault} with a sentence that names the place.
 */
export async function openZip(source: ZipSource, limits: ZipLimits): Promise<OpenZip> {
  const size = "path" in source ? (await stat(source.path)).size : source.bytes.length;
  const zip = await open(source);
  try {
    const listed = await listEntries(zip, limits);
    const packed = [...listed.values()].reduce((sum, entry) => sum + entry.compressedSize, 0);
    if (packed > size) throw new FileFault("Files in this zip lie over each other.");
    return {
      entries: [...listed.values()].map((entry) => ({
        name: entry.fileName,
        bytes: entry.uncompressedSize,
        stored: entry.compressionMethod === 0,
      })),
      async read(name) {
        const entry = listed.get(name);
        if (!entry) throw new FileFault(`${name} is missing.`);
        const stream = await zip.openReadStreamPromise(entry).catch((error) => {
          throw new FileFault(`${name} cannot be unpacked: ${error.message}.`);
        });
        return checked(stream, entry);
      },
      close: () => zip.close(),
    };
  } catch (error) {
    zip.close();
    throw error;
  }
}

const options = { lazyEntries: true, autoClose: false, strictFileNames: true } as const;

async function open(source: ZipSource): Promise<yauzl.ZipFile> {
  try {
    return "path" in source
      ? await yauzl.openPromise(source.path, options)
      : await yauzl.fromBufferPromise(Buffer.from(source.bytes), options);
  } catch (error) {
    throw new FileFault(`This is no whole zip file: ${words(error)}.`);
  }
}

async function listEntries(
  zip: yauzl.ZipFile,
  limits: ZipLimits,
): Promise<Map<string, yauzl.Entry>> {
  const listed = new Map<string, yauzl.Entry>();
  if (zip.entryCount > limits.mostEntries) throw new FileFault("There are too many files in it.");
  try {
    for await (const entry of zip.eachEntry()) {
      const { fileName } = entry;
      if (listed.has(fileName)) throw new FileFault(`${fileName} is in it twice.`);
      const says = faultOf(entry, limits.mostBytes(fileName));
      if (says) throw new FileFault(says);
      listed.set(fileName, entry);
    }
  } catch (error) {
    if (error instanceof FileFault) throw error;
    throw new FileFault(`The list of files in this zip is damaged: ${words(error)}.`);
  }
  return listed;
}

function faultOf(entry: yauzl.Entry, most: number | undefined): string | undefined {
  const { fileName, compressedSize, uncompressedSize, compressionMethod } = entry;
  if (most === undefined) return `“${printable(fileName)}” does not belong in here.`;
  if (entry.isEncrypted()) return `${fileName} is encrypted.`;
  if (compressionMethod !== 0 && compressionMethod !== 8)
    return `${fileName} is packed in a way that is not known here.`;
  if (uncompressedSize > most)
    return `${fileName} would unpack to ${uncompressedSize} bytes; at most ${most} are taken.`;
  if (uncompressedSize > growthStartsAt + mostGrowth * compressedSize)
    return `${fileName} would unpack to more than ${mostGrowth} times its size.`;
  return undefined;
}

/** Passes bytes on while they are counted and summed; the last may come only if all of it is right. */
function checked(stream: Readable, { fileName, crc32: expected }: yauzl.Entry): Readable {
  let sum = 0;
  const check = new Transform({
    transform(chunk, _encoding, done) {
      sum = crc32(chunk, sum);
      done(null, chunk);
    },
    flush(done) {
      done(sum === expected ? null : new FileFault(`${fileName} is damaged: its bytes changed.`));
    },
  });
  stream.once("error", (error) =>
    check.destroy(new FileFault(`${fileName} is damaged: ${words(error)}.`)),
  );
  check.once("close", () => stream.destroy());
  return stream.pipe(check);
}

/** All bytes of a stream; of a file that is known to be small. */
export async function gather(stream: Readable): Promise<Buffer> {
  const chunks: Buffer[] = [];
  stream.on("data", (chunk: Buffer) => chunks.push(chunk));
  await once(stream, "end");
  return Buffer.concat(chunks);
}

const words = (error: unknown): string =>
  (error instanceof Error ? error.message : String(error)).replace(/\.$/, "");

const printable = (name: string): string => name.replace(/[^\x20-\x7e]/g, "?").slice(0, 100);
