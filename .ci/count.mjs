// Names each test that failed, with its reason, and closes with one line that counts the tests of
// several runs. A run is a report, x.json, and x.again.json where its failed files were run once more:
// then these count, and what failed before is named as unsteady. A report that is missing is a failure.
import { failuresOf, filesOf } from "./reports.mjs";

let passed = 0;
let failed = 0;
const tell = (word, { what, why }) => console.log(`${word}: ${what}\n  ${why}`);

for (const path of process.argv.slice(2)) {
  const first = filesOf(path);
  const again = filesOf(path.replace(/\.json$/, ".again.json"));
  if (first.size === 0) {
    failed += 1;
    tell("Failed", { what: path, why: "no report was written" });
  }
  for (const [name, file] of first) {
    const last = again.get(name) ?? file;
    const failures = failuresOf(last);
    for (const failure of failures) tell("Failed", failure);
    if (failures.length === 0)
      for (const failure of failuresOf(file))
        tell("Unsteady, it passed when it was run again", failure);
    failed += failures.length;
    passed += last.assertionResults.filter(({ status }) => status === "passed").length;
  }
}
console.log(`vitest: ${passed} passed, ${failed} failed`);
