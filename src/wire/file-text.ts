export type FileText = { kind: "text"; text: string } | { kind: "unreadable"; says: string };

/**
 * The text of a file that somebody sent: UTF-8, or UTF-16 where a byte order mark says so. Nothing is
 * guessed from the letters: what is neither is refused, so that no name comes in garbled.
 */
export function textOfFile(bytes: Uint8Array): FileText {
  const [first, second] = bytes;
  const encoding =
    first === 0xff && second === 0xfe
      ? "utf-16le"
      : first === 0xfe && second === 0xff
        ? "utf-16be"
        : "utf-8";
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch {
    return {
      kind: "unreadable",
      says: "This is not text in UTF-8. Save it anew as “CSV UTF-8” or as JSON, then send it again.",
    };
  }
  if (text.includes("\0")) {
    return {
      kind: "unreadable",
      says: "There are empty characters in this file: it is no text, or its kind of text is not said. Save it anew as UTF-8.",
    };
  }
  if (text.trim() === "") return { kind: "unreadable", says: "The file is empty." };
  return { kind: "text", text };
}
