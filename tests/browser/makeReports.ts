/** Reports as a user makes them: example files, the command line, the real library. */
import { mkdtempSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { CORE, type Core } from '../../packages/cli/src/core.ts';
import { main } from '../../packages/cli/src/main.ts';
import { backtestReport } from '../../packages/cli/src/report/backtestReport.ts';
import { calibrationReport } from '../../packages/cli/src/report/calibrationReport.ts';
import { chooseReport } from '../../packages/cli/src/report/chooseReport.ts';
import { compareReport } from '../../packages/cli/src/report/compareReport.ts';
import { rankReport } from '../../packages/cli/src/report/rankReport.ts';
import { restrictionsReport } from '../../packages/cli/src/report/restrictionsReport.ts';
import { sweepReport } from '../../packages/cli/src/report/sweepReport.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';
import { sampleChosen, sampleRanking } from '../../packages/cli/test/report/sampleRankings.ts';
import {
  sampleBacktest,
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from '../../packages/cli/test/report/sampleStudies.ts';
import { sampleCurve } from '../../packages/cli/test/sampleCurve.ts';
import { runJobsHere } from '../../packages/core/src/studies/job.ts';

const root = join(import.meta.dirname, '../..');

/** Everything under `examples/`, by the path it is called by. */
function exampleFiles(): Record<string, string> {
  const names = readdirSync(join(root, 'examples'), { recursive: true, encoding: 'utf8' });
  return Object.fromEntries(
    names
      .filter((name) => /\.(yaml|csv)$/.test(name))
      .map((name) => [`examples/${name}`, readFileSync(join(root, 'examples', name), 'utf8')]),
  );
}

/** Pages of studies whose forecasts would take too long here: made-up results, the real drawing. */
export async function makeSampleReports(): Promise<Record<string, string>> {
  const names = ['As it is', 'Headers of 1-7/8 in and longer collectors', 'Longer cam', 'Wide-core mufflers'];
  const variables = [
    { path: 'chamber.compression', values: [9.5, 10.5, 11.5], current: 10.5 },
    { path: 'exhaust.primary.length', values: ['28 in', '32 in', '36 in'], current: '32 in' },
  ];
  const pages = {
    comparison: await compareReport(
      sampleComparison(names),
      { note: '', resolvablePct: 0.82, fuelOctane: names.map(() => 98) },
      'trade',
    ),
    sweep: await sweepReport(sampleSweep(variables.slice(1)), '', 'trade'),
    'sweep of two': await sweepReport(sampleSweep(variables), '', 'trade'),
    ranking: await rankReport(
      sampleRanking(names.slice(1)),
      { note: '', curve: () => sampleCurve([3000, 4000, 5000, 6000]), fuelOctane: 93 },
      'trade',
    ),
    choice: await chooseReport(sampleChosen(), '', 'trade'),
    restrictions: await restrictionsReport(sampleRestrictions('As it is', names.slice(1)), '', 'trade'),
    'back-test': await backtestReport(sampleBacktest(), 'trade'),
    calibration: await calibrationReport(sampleCalibration(), '0.1.0', 'trade'),
  };
  return Object.fromEntries(Object.entries(pages).map(([name, page]) => [name, keepPage(page)]));
}

function keepPage(page: string): string {
  const path = join(mkdtempSync(join(tmpdir(), 'valvetide-')), 'report.html');
  writeFileSync(path, page);
  return path;
}

/** The sources have no worker to start threads on. */
const onThisThread: Core = { ...CORE, openRunner: () => ({ run: runJobsHere, close: async () => {} }) };

/** Runs a command line that writes `out.html`, and gives the path of the page on disk. */
export async function makeReport(
  words: readonly string[],
  more: Readonly<Record<string, string>> = {},
): Promise<string> {
  const w = world({ files: { ...exampleFiles(), ...more } });
  const code = await main([...words, '--report', 'out.html', '--quiet'], w.io, onThisThread);
  const page = w.files.get('out.html');
  if (code !== 0 || page === undefined) throw new Error(`exit code ${code}\n${w.err()}`);
  return keepPage(page);
}
