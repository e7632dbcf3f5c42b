export type JsonRead = { kind: "read"; value: unknown } | { kind: "unreadable"; says: string };

const deepest = 32;

/**
 * JSON from a stranger. Beside what `JSON.parse` refuses, so is what it would silently make something
 * else of: a key that stands twice in one object, half of a character, and lists in lists without end.
 */
export function readJsonText(text: string): JsonRead {
  // Before anything is built of it: brackets alone can fill the memory.
  if (isTooDeep(text))
    return { kind: "unreadable", says: `Things stand in things more than ${deepest} deep here.` };
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (error) {
    const says = `This is not JSON that can be read: ${(error as Error).message}.`;
    return { kind: "unreadable", says: says.replace(/[\p{Cc}\p{Cs}]/gu, " ") };
  }
  const says = whatIsLost(text);
  return says === undefined ? { kind: "read", value } : { kind: "unreadable", says };
}

function isTooDeep(text: string): boolean {
  let depth = 0;
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at];
    if (character === '"') at = endOfString(text, at) - 1;
    else if (character === "{" || character === "[") depth += 1;
    else if (character === "}" || character === "]") depth -= 1;
    if (depth > deepest) return true;
  }
  return false;
}

/** Walks text that is known to be JSON. One set of keys for each object that is open, null for a list. */
function whatIsLost(text: string): string | undefined {
  const open: (Set<string> | null)[] = [];
  for (let at = 0; at < text.length; at += 1) {
    const character = text[at];
    if (character === "{") open.push(new Set());
    else if (character === "[") open.push(null);
    else if (character === "}" || character === "]") open.pop();
    else if (character === '"') {
      const end = endOfString(text, at);
      const said = JSON.parse(text.slice(at, end)) as string;
      if (/\p{Cs}/u.test(said)) return "A text in this file has half of a character in it.";
      at = end - 1;
      if (!isKey(text, end)) continue;
      const keys = open.at(-1);
      if (said === "__proto__") return "There is no field “__proto__” here.";
      if (keys?.has(said)) return `The field “${said.slice(0, 80)}” stands twice in one place.`;
      keys?.add(said);
    }
  }
  return undefined;
}

function isKey(text: string, end: number): boolean {
  let at = end;
  while (" \t\r\n".includes(text.charAt(at)) && at < text.length) at += 1;
  return text[at] === ":";
}

/** The place after the closing mark of the string that begins here. */
function endOfString(text: string, start: number): number {
  let at = start + 1;
  while (at < text.length && text[at] !== '"') at += text[at] === "\\" ? 2 : 1;
  return at + 1;
}
