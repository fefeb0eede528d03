/**
 * Which test file runs which function of core: one run of the fast suite with the compiler's own counters.
 *
 * This file is handed to vitest as its provider of coverage. It does what the usual one does, and writes beside that one line for each
 * test file: `{ tests, seconds, ran: { 'cycle/march.ts': ['takeStep', ...] } }`.
 */
import { appendFileSync } from 'node:fs';
import v8 from '@vitest/coverage-v8';

const CORE = '/packages/core/src/';

/** Names of functions that ran, by file of core. Functions without a name run only inside of one that has a name. */
function functionsRun(coverage) {
  const ran = {};
  for (const { url, functions } of coverage.result) {
    const at = url.indexOf(CORE);
    if (at < 0) continue;
    const names = functions
      .filter(({ functionName, ranges }) => functionName !== '' && ranges[0].count > 0)
      .map(({ functionName }) => functionName);
    if (names.length > 0) ran[url.slice(at + CORE.length)] = [...new Set(names)];
  }
  return ran;
}

export default {
  ...v8,
  async getProvider() {
    const provider = await v8.getProvider();
    // Workers run at the same time, so that what a file took is no more than a rough figure.
    let last = performance.now();
    const usual = provider.onAfterSuiteRun.bind(provider);
    provider.onAfterSuiteRun = (done) => {
      const { coverage, testFiles } = done;
      const seconds = (performance.now() - last) / 1000;
      last = performance.now();
      const line = { tests: testFiles, seconds, ran: coverage === undefined ? {} : functionsRun(coverage) };
      appendFileSync(process.env.COVERING_TESTS, `${JSON.stringify(line)}\n`);
      usual(done);
    };
    return provider;
  },
};
