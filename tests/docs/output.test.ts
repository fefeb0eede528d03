/** Every command line of the guides works; what they show as output, and the files they show, are what the program gives and reads. */
import { describe, expect, it } from 'vitest';
import { CORE, type Core } from '../../packages/cli/src/core.ts';
import { main } from '../../packages/cli/src/main.ts';
import { world } from '../../packages/cli/test/fakeIo.ts';
import { measuringCore } from '../../packages/cli/test/measuredRunner.ts';
import { byPrimary, inventedCurve, inventedRunner } from '../../packages/cli/test/studies.ts';
import { problemLine } from '../../packages/core/src/combination/problem.ts';
import type { Curve } from '../../packages/core/src/forecast/curve.ts';
import { readCombination } from '../../packages/core/src/reading/readCombination.ts';
import { readFlowSheet } from '../../packages/core/src/reading/sheet/flowSheet.ts';
import { readLiftTable } from '../../packages/core/src/reading/sheet/liftTable.ts';
import type { RunJobs } from '../../packages/core/src/studies/job.ts';
import { blocks, exampleFiles, guides, readGuide, split } from './guides.ts';
import { form, isFree, shown } from './shownOutput.ts';

/** First and last speed of each curve: forms are compared, not figures. */
const ends = (rpm: readonly number[]): number[] => [...new Set([...rpm.slice(0, 1), ...rpm.slice(-1)])];

/** Forecast on single cells, by speeds. */
const forecasts = new Map<string, Curve>();

/** The first engine of each name for real; all that differ from it a little off it, each by something else: a hundred forecasts take no time. */
const likeTheFirst: RunJobs = async (jobs) =>
  jobs.map(({ combination, rpm }) => {
    const speeds = ends(rpm);
    const key = `${combination.name} ${speeds.join(' ')}`;
    const known = forecasts.get(key);
    const curve =
      known ?? CORE.forecast(combination, { rpm: speeds, mesh: { intakeCell: 0, exhaustCell: 0 } });
    forecasts.set(key, curve);
    return known === undefined ? curve : scaled(curve, 1 + 0.003 * shareOf(JSON.stringify(combination)));
  });

/** Of a text, between -1 and 1. */
function shareOf(text: string): number {
  let hash = 7;
  for (let i = 0; i < text.length; i++) hash = (31 * hash + text.charCodeAt(i)) % 1_000_003;
  return hash / 500_001.5 - 1;
}

function scaled(curve: Curve, by: number): Curve {
  return {
    ...curve,
    points: curve.points.map((point) =>
      point.status === 'lost'
        ? point
        : {
            ...point,
            torqueNm: by * point.torqueNm,
            torqueLbFt: by * point.torqueLbFt,
            powerKw: by * point.powerKw,
            powerHp: by * point.powerHp,
          },
    ),
  };
}

/** For commands whose output is shown: first and last speed for real, and studies on the runner above. */
const likeReal: Core = {
  ...measuringCore(CORE),
  openRunner: () => ({ run: likeTheFirst, close: async () => {} }),
  forecast: (combination, options) => CORE.forecast(combination, { ...options, rpm: ends(options.rpm) }),
  forecastOn: (open, _workers, combination, options) =>
    CORE.forecastOn(open, 1, combination, { ...options, rpm: ends(options.rpm) }),
};

/** For the rest, of which only the line is under test: invented curves, and of the changes in a file those that make one pair. */
const invented: Core = {
  ...measuringCore(CORE),
  openRunner: () => inventedRunner(byPrimary),
  forecast: (combination, { rpm }) => inventedCurve(combination, rpm.slice(0, 1), byPrimary),
  forecastOn: (open, _workers, combination, options) => CORE.forecastOn(open, 2, combination, options),
  readChanges: (text, options) => {
    const read = CORE.readChanges(text, options);
    return read.ok ? { ...read, value: read.value.slice(0, 2) } : read;
  },
};

const pages = guides().filter((path) => shown(readGuide(path), 'text').length > 0);

describe('commands and output in the guides', () => {
  it('are there', () => {
    const all = pages.map((path) => shown(readGuide(path), 'text'));
    expect(all.length).toBeGreaterThan(10);
    expect(all.filter((page) => page.some(({ outputs }) => outputs.length > 0)).length).toBeGreaterThan(1);
  });

  it.each(pages)(
    '%s: each works, one after the other, and every line shown has its like in the real output',
    async (path) => {
      let files = exampleFiles();
      for (const { command, outputs } of shown(readGuide(path), 'text')) {
        const { words, input } = split(command);
        const w = world({ files, columns: 90, ...(input === undefined ? {} : { stdin: files[input] }) });
        expect(
          await main(words, w.io, outputs.length > 0 ? likeReal : invented),
          `${command}\n${w.err()}`,
        ).toBe(0);
        const written = [...w.files.keys()].filter((name) => !(name in files));
        expect(w.out().length + written.length, `${command} gave nothing`).toBeGreaterThan(0);
        files = Object.fromEntries(w.files);
        const real = new Set(`${w.out()}\n${w.err()}`.split('\n').map(form));
        const lines = outputs.flatMap((text) => text.split('\n')).filter((line) => !isFree(line));
        expect(
          lines.filter((line) => !real.has(form(line))),
          command,
        ).toEqual([]);
      }
    },
    120_000,
  );
});

describe('files in the guide of the combination file', () => {
  const page = 'docs/guide/combination-file.md';

  it('the least that runs is read', () => {
    const [least] = blocks(readGuide(page), 'yaml');
    const result = readCombination(least);
    expect(result.ok ? [] : result.problems.map(problemLine)).toEqual([]);
  });

  it('the flow sheet and the lift table are read', () => {
    const [flow, lift] = blocks(readGuide(page), 'csv');
    const sheet = readFlowSheet(flow, 'flow.csv');
    expect(sheet.ok ? sheet.value.withManifold?.lift.length : sheet.problems.map(problemLine)).toBe(2);
    const table = readLiftTable(lift, 'lobe.csv', 'intake');
    expect(table.ok ? table.value.of : table.problems.map(problemLine)).toBe('lobe');
  });
});
