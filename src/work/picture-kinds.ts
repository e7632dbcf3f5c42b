/** What a file is by its first bytes. Its name and the type it was sent with are not asked. */
export type PictureKind = "jpeg" | "png" | "webp" | "gif" | "svg" | "heic" | "avif" | "unknown";

export type TakenKind = Extract<PictureKind, "jpeg" | "png" | "webp">;

export const isTaken = (kind: PictureKind): kind is TakenKind =>
  kind === "jpeg" || kind === "png" || kind === "webp";

/**
 * Sources: ISO/IEC 10918-1 (JPEG starts with SOI and a marker), W3C "Portable Network Graphics
 * (PNG) Specification" 5.2, RFC 9649 (WebP in RIFF), CompuServe "GIF89a Specification" 17,
 * ISO/IEC 23008-12 (HEIF brands) and AOMedia "AV1 Image File Format" (avif, avis).
 */
export function kindOfPicture(bytes: Uint8Array): PictureKind {
  const head = Buffer.from(bytes.subarray(0, 1024)).toString("latin1");
  if (head.startsWith("\xff\xd8\xff")) return "jpeg";
  if (head.startsWith("\x89PNG\r\n\x1a\n")) return "png";
  if (head.startsWith("RIFF") && head.slice(8, 12) === "WEBP") return "webp";
  if (head.startsWith("GIF87a") || head.startsWith("GIF89a")) return "gif";
  if (head.slice(4, 8) === "ftyp") return kindByBrands(head);
  if (/<svg[\s>]/i.test(head)) return "svg";
  return "unknown";
}

/** The major brand and the compatible ones, four letters each, in a box whose length comes first. */
function kindByBrands(head: string): PictureKind {
  const length = Math.min(Buffer.from(head.slice(0, 4), "latin1").readUInt32BE(), head.length);
  const brands = [head.slice(8, 12), ...(head.slice(16, length).match(/[\s\S]{4}/g) ?? [])];
  if (brands.some((brand) => brand === "avif" || brand === "avis")) return "avif";
  if (brands.some((brand) => heifBrands.includes(brand))) return "heic";
  return "unknown";
}

const heifBrands = ["heic", "heix", "heim", "heis", "hevc", "hevx", "mif1", "msf1"];
