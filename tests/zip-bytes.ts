import { crc32, deflateRawSync } from "node:zlib";

type Odd = { deflate?: boolean; flags?: number; crc?: number; method?: number; lie?: number };

/** A zip written by hand (APPNOTE 4.3.7, 4.3.12, 4.3.16), with whatever a test wants wrong in it. */
export function zipSync(files: [name: string, content: Buffer][], odd: Odd = {}): Buffer {
  const locals: Buffer[] = [];
  const centrals: Buffer[] = [];
  let offset = 0;
  for (const [name, content] of files) {
    const label = Buffer.from(name, "utf8");
    const packed = odd.deflate ? deflateRawSync(content) : content;
    const fields = Buffer.alloc(26);
    fields.writeUInt16LE(20, 0);
    fields.writeUInt16LE(odd.flags ?? 0, 2);
    fields.writeUInt16LE(odd.method ?? (odd.deflate ? 8 : 0), 4);
    fields.writeUInt32LE(odd.crc ?? crc32(content), 10);
    fields.writeUInt32LE(packed.length, 14);
    fields.writeUInt32LE(odd.lie ?? content.length, 18);
    fields.writeUInt16LE(label.length, 22);
    const local = Buffer.concat([Buffer.from("PK\x03\x04", "latin1"), fields, label, packed]);
    const rest = Buffer.alloc(14);
    rest.writeUInt32LE(offset, 10);
    const made = Buffer.from("PK\x01\x02\x14\x00", "latin1");
    centrals.push(Buffer.concat([made, fields, rest, label]));
    locals.push(local);
    offset += local.length;
  }
  const central = Buffer.concat(centrals);
  const end = Buffer.alloc(22);
  end.write("PK\x05\x06", 0, "latin1");
  end.writeUInt16LE(files.length, 8);
  end.writeUInt16LE(files.length, 10);
  end.writeUInt32LE(central.length, 12);
  end.writeUInt32LE(offset, 16);
  return Buffer.concat([...locals, central, end]);
}
