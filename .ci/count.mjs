// node .ci/count.mjs REPORT [STEP ...]   Counts the tests in vitest's JSON report; each STEP is one that failed.
// Ends with `N passed, N failed` (and `, N skipped`); exit 1 when anything failed or no test ran.
import { existsSync, readFileSync } from 'node:fs';

const [path, ...steps] = process.argv.slice(2);

/** A file that failed outside its tests, in loading or in a hook, counts as one failure. */
function countReport(report) {
  const failedTests = (file) => file.assertionResults.filter((test) => test.status === 'failed').length;
  const outside = report.testResults.filter((file) => file.status === 'failed' && failedTests(file) === 0);
  for (const file of outside) console.log(`failed outside its tests, counted as one failure: ${file.name}`);
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + outside.length,
    skipped: report.numPendingTests + report.numTodoTests,
  };
}

const counted = existsSync(path) ? countReport(JSON.parse(readFileSync(path, 'utf8'))) : undefined;
const tests = counted ?? { passed: 0, failed: 0, skipped: 0 };
let failed = tests.failed;
for (const step of steps) {
  // `npm test` fails with its tests, which are counted already; alone it failed for a reason that no test shows.
  if (step === 'npm test' && tests.failed > 0) continue;
  console.log(`${step} failed, counted as one failure: see above`);
  failed += 1;
}
if (tests.passed + tests.failed === 0) console.log('no test ran');
const skipped = tests.skipped > 0 ? `, ${tests.skipped} skipped` : '';
console.log(`${tests.passed} passed, ${failed} failed${skipped}`);
process.exitCode = failed > 0 || tests.passed === 0 ? 1 : 0;
