// Names each test that failed, with its reason, and closes with one line that counts the tests of
// several vitest reports; a report that is missing is a failure.
import { readFileSync } from "node:fs";

let passed = 0;
let failed = 0;

function fails(where, why) {
  failed += 1;
  console.log(`Failed: ${where}\n  ${why}`);
}

for (const path of process.argv.slice(2)) {
  try {
    const report = JSON.parse(readFileSync(path, "utf8"));
    passed += report.numPassedTests;
    for (const { name, status, message, assertionResults } of report.testResults) {
      for (const test of assertionResults)
        if (test.status === "failed")
          fails(`${name}: ${test.fullName}`, test.failureMessages.join("\n  "));
      if (status === "failed" && assertionResults.length === 0) fails(name, message);
    }
  } catch (error) {
    fails(path, error);
  }
}
console.log(`vitest: ${passed} passed, ${failed} failed`);
