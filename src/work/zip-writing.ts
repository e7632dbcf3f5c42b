import type { Readable } from "node:stream";
import { ZipFile } from "yazl";

/** A file to put into a zip; it is asked for its bytes only when its turn has come. */
export type ZipPart = {
  name: string;
  /** How many bytes `open` will bring; a zip with any other number breaks off. */
  bytes: number;
  /** Deflated, or as it is: pictures do not get smaller. */
  deflated: boolean;
  open: () => Promise<Readable>;
};

// In local time, as a zip means it: the first moment that it can name, the same for every file.
const noTime = new Date(1980, 0, 1);
const plainFile = 0o100_644;

/**
 * A zip as a stream of its parts in the order given, one open at a time. Equal parts make equal bytes,
 * whenever and wherever it is written. The stream fails where a part cannot be opened or read.
 */
export function writeZip(parts: Iterable<ZipPart>): Readable {
  const zip = new ZipFile();
  const out = zip.outputStream as Readable;
  let current: Readable | undefined;
  zip.on("error", (error) => out.destroy(error as Error));
  // Whoever stops fetching half-way leaves no file open.
  out.once("close", () => current?.destroy());
  for (const { name, bytes, deflated, open } of parts) {
    const options = {
      mtime: noTime,
      mode: plainFile,
      forceDosTimestamp: true,
      size: bytes,
      ...(deflated ? { compress: true, compressionLevel: 6 } : { compress: false }),
    };
    zip.addReadStreamLazy(name, options, (give) => {
      open().then(
        (stream) => {
          current = stream;
          give(null, stream);
        },
        (error) => give(error, undefined as never),
      );
    });
  }
  zip.end();
  return out;
}
