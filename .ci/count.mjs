// One line that counts the tests of several vitest reports; a report that is missing is a failure.
import { readFileSync } from "node:fs";

let passed = 0;
let failed = 0;
for (const path of process.argv.slice(2)) {
  try {
    const report = JSON.parse(readFileSync(path, "utf8"));
    passed += report.numPassedTests;
    failed +=
      report.numFailedTests +
      report.testResults.filter(
        ({ status, assertionResults }) => status === "failed" && assertionResults.length === 0,
      ).length;
  } catch {
    failed += 1;
  }
}
console.log(`vitest: ${passed} passed, ${failed} failed`);
