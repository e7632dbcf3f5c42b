/** Says in one line what was promised and what happened; a promise that broke fails the run. */
export function promised(where: string, what: string, held: boolean, happened: string): void {
  console.log(`${held ? "held  " : "BROKEN"}  ${where}: ${what}: ${happened}`);
  if (!held) process.exitCode = 1;
}

export const leftOut = (what: string, why: string): void =>
  console.log(`left out  ${what}: ${why}`);
