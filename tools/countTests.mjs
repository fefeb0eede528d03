/** Prints "passed failed" of a vitest JSON report. `countTests.mjs REPORT STATUS`, the run's exit status second. */
import { existsSync, readFileSync } from 'node:fs';

const [report, status] = process.argv.slice(2);
if (existsSync(report)) {
  const { numPassedTests, numFailedTests } = JSON.parse(readFileSync(report, 'utf8'));
  // A file that can't be loaded, or an error outside any test, fails the run without failing a test.
  const broken = Number(status) !== 0 && numFailedTests === 0;
  console.log(`${numPassedTests} ${numFailedTests + (broken ? 1 : 0)}`);
} else {
  // The run never got to its tests.
  console.log('0 1');
}
