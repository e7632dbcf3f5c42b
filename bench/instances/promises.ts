/** What was promised and did not hold. */
let broken = 0;

/** How many promises were broken. */
export const brokenPromises = () => broken;

/**
 * Says what is promised and what happened.
 *
 * @param happens answers what happened, where the promise held, and throws what happened where not.
 */
export async function promised(what: string, happens: () => Promise<string>): Promise<void> {
  console.log(`promised  ${what}`);
  try {
    console.log(`happened  ${await happens()}\n`);
  } catch (error) {
    broken += 1;
    console.log(`BROKEN    ${error instanceof Error ? error.message : error}\n`);
  }
}

/** @throws what is not so, where it is not. */
export function hold(is: boolean, otherwise: string): void {
  if (!is) throw new Error(otherwise);
}
