/**
 * Rows as CSV (RFC 4180). A cell that a spreadsheet would take for a formula gets an apostrophe
 * before it, so that nothing that somebody typed is ever carried out.
 */
export const csvText = (rows: readonly (readonly string[])[]): string =>
  rows.map((row) => `${row.map(cell).join(",")}\r\n`).join("");

function cell(text: string): string {
  const harmless = /^[=+\-@\t\r]/.test(text) ? `'${text}` : text;
  return /[",\r\n]/.test(harmless) ? `"${harmless.replaceAll('"', '""')}"` : harmless;
}
