// npm test: from a fresh clone to the count of all tests. Installs what is missing, runs every runner even if
// an earlier one failed, and reads the counts from the reports the runners write. Last line: N passed, N failed.
import { spawnSync } from 'node:child_process';
import { mkdirSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { makeReady, root } from '../src/cli/ready.mjs';

/** @typedef {{ passed: number, failed: number, skipped: number }} Count */

makeReady();
const { findBrowser } = await import('./browser/browser.mjs');
const reports = join(root, '.reports');
mkdirSync(reports, { recursive: true });

/** Minutes. They let the summary come out within the half hour that CI has, even if both runners hang. */
const LIMITS = { vitest: 15, build: 1, playwright: 10 };

const unit = runTests('vitest', 'vitest/vitest.mjs', countVitest, [
  'run',
  '--reporter=default',
  '--reporter=json',
  `--outputFile.json=${join(reports, 'vitest.json')}`
]);
// Without this a failed build would leave the last one to be tested.
rmSync(join(root, '.svelte-kit/output'), { recursive: true, force: true });
const built = runNode('vite/bin/vite.js', ['build', '--logLevel', 'warn'], LIMITS.build) === 0;
const browser = await findBrowser().then(
  () =>
    runTests('playwright', '@playwright/test/cli.js', countPlaywright, [
      'test',
      '--config=tests/browser/playwright.config.ts'
    ]),
  (error) => {
    console.error(error.message);
    return { passed: 0, failed: 1, skipped: 0, remark: 'no browser' };
  }
);

console.log('');
printLine('vitest', unit);
printLine('vite build', { passed: 0, failed: built ? 0 : 1, skipped: 0, remark: built ? 'done' : 'failed' });
printLine('playwright', browser);
const passed = unit.passed + browser.passed;
const failed = unit.failed + browser.failed + (built ? 0 : 1);
const skipped = unit.skipped + browser.skipped;
console.log(`${passed} passed, ${failed} failed${skipped ? `, ${skipped} skipped` : ''}`);
process.exitCode = failed ? 1 : 0;

/**
 * Runs one runner and counts its report. No report, no test, or a bad exit without a failed test is one failed.
 * @param {'vitest' | 'playwright'} name also of its report, .reports/NAME.json
 * @param {string} script @param {(report: any) => Count} count @param {string[]} args
 * @returns {Count & { remark?: string }}
 */
function runTests(name, script, count, args) {
  const report = join(reports, `${name}.json`);
  rmSync(report, { force: true });
  const status = runNode(script, args, LIMITS[name]);
  try {
    const counted = count(JSON.parse(readFileSync(report, 'utf8')));
    if (counted.failed) return counted;
    if (status !== 0) return { ...counted, failed: 1, remark: `ended with status ${status}` };
    if (!counted.passed) return { ...counted, failed: 1, remark: 'no test ran' };
    return counted;
  } catch {
    return { passed: 0, failed: 1, skipped: 0, remark: `no report, ended with status ${status}` };
  }
}

/**
 * @param {string} script below node_modules @param {string[]} args @param {number} minutes
 * @returns {number | null} the exit status
 */
function runNode(script, args, minutes) {
  return spawnSync(process.execPath, [join(root, 'node_modules', script), ...args], {
    cwd: root,
    stdio: ['ignore', 'inherit', 'inherit'],
    timeout: minutes * 60_000
  }).status;
}

/** @param {any} report @returns {Count} */
function countVitest(report) {
  // A file that could not be loaded holds no test that failed: it counts as one.
  const broken = report.testResults.filter(
    (/** @type {any} */ file) =>
      file.status === 'failed' &&
      !file.assertionResults.some((/** @type {any} */ test) => test.status === 'failed')
  );
  return {
    passed: report.numPassedTests,
    failed: report.numFailedTests + broken.length,
    skipped: report.numPendingTests + report.numTodoTests
  };
}

/** @param {any} report @returns {Count} */
function countPlaywright({ stats, errors }) {
  // errors: what failed outside a test, such as the server not starting. A flaky test is not a passed one.
  return {
    passed: stats.expected,
    failed: stats.unexpected + stats.flaky + errors.length,
    skipped: stats.skipped
  };
}

/** @param {string} name @param {Count & { remark?: string }} count */
function printLine(name, { passed, failed, skipped, remark }) {
  const counts = `${passed} passed, ${failed} failed, ${skipped} skipped`;
  console.log(`${name}: ${counts}${remark ? ` (${remark})` : ''}`);
}
