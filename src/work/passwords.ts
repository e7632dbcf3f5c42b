import { randomBytes } from "node:crypto";
import { hash, verify } from "@node-rs/argon2";
import pLimit from "p-limit";
import { foldName } from "../db/names.ts";

/**
 * What a password costs to try: argon2id (the library's default) with 19456 KiB of memory, 2 passes
 * and 1 lane, the least that OWASP's Password Storage Cheat Sheet recommends.
 */
const cost = { memoryCost: 19_456, timeCost: 2, parallelism: 1 };

/** Each takes 19 MiB and a core, so two at a time leave the machine to everybody else. */
const twoAtATime = pLimit(2);

/** Of a password that nobody knows; at the same cost as every other. */
const decoy =
  "$argon2id$v=19$m=19456,t=2,p=1$iN8KXOsGYZUZrgnf18gGSA$3hBcq6FIZtnyiXIWlPHJTEL8L+qyOTC+E6/vSto4P+0";

export const shortestPassword = 10;
export const longestPassword = 200;

/** A password as it is stored: argon2id in its usual text form, with a salt of its own. */
export const hashPassword = (password: string): Promise<string> =>
  twoAtATime(() => hash(typedAlike(password), cost));

/** In the place of a password's hash where there is no password: as long as one, and of nothing. */
export const noPassword = (): string => {
  const random = (bytes: number) => randomBytes(bytes).toString("base64").replace(/=+$/, "");
  const { memoryCost, timeCost, parallelism } = cost;
  return `$argon2id$v=19$m=${memoryCost},t=${timeCost},p=${parallelism}$${random(16)}$${random(32)}`;
};

/**
 * Whether a password is the one that was stored.
 *
 * @param stored undefined where there is nobody to ask about: that takes as long and is never right,
 *   so that the time of an answer does not tell who belongs to the studio.
 */
export async function verifyPassword(
  stored: string | undefined,
  password: string,
): Promise<boolean> {
  const right = await twoAtATime(() => verify(stored ?? decoy, typedAlike(password)));
  return right && stored !== undefined;
}

/** Why a password cannot be taken, as a sentence for its owner, or undefined where it can. */
export function passwordFault(
  password: string,
  { name, email }: { name: string; email: string },
): string | undefined {
  const length = Array.from(typedAlike(password)).length;
  if (length < shortestPassword)
    return `At least ${shortestPassword} characters. Four or five unrelated words are easy to keep in mind.`;
  if (length > longestPassword) return `At most ${longestPassword} characters.`;
  const easy = [name, email, email.split("@")[0] ?? ""].map(foldName);
  if (easy.includes(foldName(password)))
    return "Your own name or e-mail is the first thing anybody would try. Choose another.";
  return undefined;
}

/** One keyboard sends é as one character and another as two: it is the same password. */
const typedAlike = (password: string): string => password.normalize("NFC");
