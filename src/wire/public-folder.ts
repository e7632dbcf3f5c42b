/** What the browser gets as it is: `public/` stands beside `src/`; a build is one folder deeper. */
export const publicFolder = new URL(
  import.meta.url.endsWith(".ts") ? "../../public" : "../../../public",
  import.meta.url,
).pathname;
