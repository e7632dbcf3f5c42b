/** Says in one line what was promised and what happened; a promise that broke fails the run. */
export function promised(where: string, what: string, held: boolean, happened: string): void {
  console.log(`${held ? "held  " : "BROKEN"}  ${where}: ${what}: ${happened}`);
  if (!held) process.exitCode = 1;
}

export const leftOut = (what: string, why: string): void =>
  console.log(`left out  ${what}: ${why}`);

/** Asks until it is so, for at most so many seconds. @returns whether it came to be, and after how long. */
export async function until(
  isSo: () => boolean | Promise<boolean>,
  mostSeconds: number,
): Promise<{ came: boolean; seconds: number }> {
  const start = performance.now();
  const gone = () => (performance.now() - start) / 1000;
  while (gone() < mostSeconds) {
    if (await isSo()) return { came: true, seconds: gone() };
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return { came: false, seconds: gone() };
}
