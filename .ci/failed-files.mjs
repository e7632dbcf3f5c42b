// Names the files of a vitest report in which something failed, a line each.
import { failuresOf, filesOf } from "./reports.mjs";

for (const [name, file] of filesOf(process.argv[2]))
  if (failuresOf(file).length > 0) console.log(name);
