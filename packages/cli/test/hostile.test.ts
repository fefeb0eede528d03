/**
 * Hostile input, a few hundred mutants of each kind; `npm run hostile` tries 5000 and writes what came of them.
 *
 * Each is accepted, or refused by coded lines that say where; nothing hangs, nothing is read that was not named, no stack shows.
 */
import { appendFileSync, readdirSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { COMMANDS } from '../src/commandList.ts';
import { COMMON_OPTIONS } from '../src/commandSpec.ts';
import { CORE, type Core } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { faultsOf } from './hostile/answer.ts';
import { commandLine, mutantOf } from './hostile/mutants.ts';
import { measuringCore } from './measuredRunner.ts';
import { sampleCurve } from './sampleCurve.ts';
import { byPrimary, studyCore } from './studies.ts';

const RUNS = Number(process.env['HOSTILE_RUNS'] ?? 200);
const SEED = Number(process.env['HOSTILE_SEED'] ?? 20_261);
const REPORT = process.env['HOSTILE_REPORT'];

const folder = new URL('../../../examples/', import.meta.url);
const example = (name: string): string => readFileSync(new URL(name, folder), 'utf8');
const engines = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('engine.yaml'))
  .map(example);

const BASE: Readonly<Record<string, string>> = {
  'engine.yaml': example('minimum/engine.yaml'),
  'flow.csv':
    '# bench of the shop, 28 inH2O\nlift in,intake cfm,exhaust cfm,intake with manifold cfm\n0.100,60,50,58\n0.200,115,88,110\n0.300,158,118,150\n0.400,182,136,170\n',
  'lobe.csv': lobe(),
  'changes.yaml':
    'changes:\n  - { name: Longer, set: { exhaust.primary.length: 30 in }, cost: 20 }\n  - name: Advance\n    add: { cam.advance: 2 deg }\n  - name: Ported\n    scale: { heads.intake.flowMultiplier: 1.04 }\n    hours: 3\n',
  'shelf.yaml':
    'groups:\n  - name: Camshaft\n    choices:\n      - { name: Late, add: { cam.advance: -4 deg }, cost: 40, hours: 2 }\n      - { name: Early, add: { cam.advance: 4 deg }, cost: 40 }\nranges:\n  - { name: Primary, field: exhaust.primary.length, from: 28 in, to: 32 in, step: 2 in, cost: 300 }\nlimits: { cost: 2000, hours: 40, largest: { chamber.compression: 12 } }\naims:\n  - { from: 3000 rpm, to: 4000 rpm, of: torque, weight: 2 }\n',
  'pull.csv':
    '# standard: J607\n# Barometer: 29.35 inHg\n# Temperature: 78 degF\nrpm,torque (lb-ft),power (hp)\n3000,380.0,217.1\n3500,395.0,263.2\n4000,405.0,308.4\n4500,400.0,342.7\n5000,385.0,366.5\n',
  'sheets.yaml':
    'engine: { bore: 4 in, stroke: 3.48 in, cylinders: 8 }\nchamber: { compression: 9 }\nheads: { valvesPerCylinder: 2, bench: { depression: 28 inH2O }, flow: flow.csv }\ncam: { intake: { table: lobe.csv } }\n',
};

function lobe(): string {
  const rows = Array.from({ length: 41 }, (_, i) => -120 + 6 * i);
  return `crank deg,lobe lift mm\n${rows.map((at) => `${at},${(8 * Math.cos((Math.PI * at) / 240) ** 2).toFixed(3)}`).join('\n')}\n`;
}

/** Reading for real, forecasts invented: what marches is not what reads. */
const QUICK: Core = {
  ...measuringCore(studyCore()),
  forecast: (_combination, { rpm }) => sampleCurve(rpm),
  forecastOn: async (_open, _workers, _combination, { rpm }) => sampleCurve(rpm),
  traceCycle: () => {
    throw new Error('not asked for here');
  },
};

/** The same, interrupted at its first forecast: a search takes a second, and what is read of a shelf is read before it. */
const STOPPED: Core = { ...QUICK, openRunner: studyCore(byPrimary, 0).openRunner };

const OPTIONS = [
  ...new Set(
    [...COMMANDS.flatMap(({ options }) => options), ...COMMON_OPTIONS].map(({ name }) => `--${name}`),
  ),
].filter((name) => !['--cycle', '--trace'].includes(name));

/** Processor time of a sound file and its sheets [s]: the least of three answers. */
let usual = Number.POSITIVE_INFINITY;

/** Runs a property and, where a report is asked for, adds what came of it. */
async function hold<T>(
  what: string,
  mutants: fc.Arbitrary<T>,
  ask: (mutant: T) => Parameters<typeof faultsOf>[0],
  core: Core = CORE,
): Promise<void> {
  const codes: Record<number, number> = {};
  const result = await fc.check(
    fc.asyncProperty(mutants, async (mutant) => {
      const { code, faults } = await faultsOf(ask(mutant), core, usual);
      codes[code] = (codes[code] ?? 0) + 1;
      if (faults.length > 0) throw new Error(faults.join('\n'));
    }),
    { seed: SEED, numRuns: RUNS, endOnFailure: REPORT !== undefined },
  );
  if (REPORT !== undefined) {
    const ends = Object.entries(codes).map(([code, count]) => `${count} ended ${code}`);
    appendFileSync(
      REPORT,
      `| ${what} | ${result.numRuns} | ${result.failed ? 1 : 0} | ${ends.join(', ')} |\n`,
    );
  }
  if (result.failed) {
    const why = result.errorInstance instanceof Error ? result.errorInstance.message : '';
    throw new Error(`${fc.defaultReportMessage(result) ?? 'failed'}\n${why}`);
  }
}

describe('what the mutants come from', () => {
  it.each([
    [['inspect', 'engine.yaml']],
    [['inspect', 'sheets.yaml']],
    [['compare', 'engine.yaml', '--changes', 'changes.yaml', '--rpm', '3000,4000']],
    [['pulls', 'pull.csv']],
  ])('is sound: %j', async (words) => {
    const { code, said } = await faultsOf(
      { words, files: BASE, readable: new Set(Object.keys(BASE)) },
      QUICK,
    );
    expect(code, said).toBe(0);
  });

  it('is sound: a shelf, as far as the first forecast', async () => {
    const words = ['choose', 'engine.yaml', '--shelf', 'shelf.yaml'];
    const { code, said } = await faultsOf(
      { words, files: BASE, readable: new Set(Object.keys(BASE)) },
      STOPPED,
    );
    expect(code, said).toBe(EXIT.interrupted);
  });
});

describe('hostile input', { timeout: 900_000 }, () => {
  beforeAll(async () => {
    const sound = {
      words: ['inspect', 'sheets.yaml', '--json'],
      files: BASE,
      readable: new Set(Object.keys(BASE)),
    };
    for (let i = 0; i < 3; i++) usual = Math.min(usual, (await faultsOf(sound, CORE)).took);
  });

  it('as a combination', () =>
    hold('combinations', mutantOf([...engines, BASE['sheets.yaml']]), (text) => ({
      words: ['inspect', 'engine.yaml', '--json'],
      files: { ...BASE, 'engine.yaml': text },
      // Mutants may name any sheet of the folder.
      readable: anyIn(text),
    })));

  it('as a flow sheet', () =>
    hold('flow sheets', mutantOf([BASE['flow.csv']]), (text) => ({
      words: ['inspect', 'sheets.yaml', '--json'],
      files: { ...BASE, 'flow.csv': text },
      readable: new Set(['sheets.yaml', 'flow.csv', 'lobe.csv']),
    })));

  it('as a lift table', () =>
    hold('lift tables', mutantOf([BASE['lobe.csv']]), (text) => ({
      words: ['inspect', 'sheets.yaml', '--json'],
      files: { ...BASE, 'lobe.csv': text },
      readable: new Set(['sheets.yaml', 'flow.csv', 'lobe.csv']),
    })));

  it('as a changes file', () =>
    hold(
      'changes files',
      mutantOf([BASE['changes.yaml']]),
      (text) => ({
        words: ['compare', 'engine.yaml', '--changes', 'changes.yaml', '--rpm', '3000,4000', '--json'],
        files: { ...BASE, 'changes.yaml': text },
        readable: anyIn(text, 'engine.yaml', 'changes.yaml'),
      }),
      QUICK,
    ));

  it('as a shelf', () =>
    hold(
      'shelves',
      mutantOf([BASE['shelf.yaml']]),
      (text) => ({
        words: ['choose', 'engine.yaml', '--shelf', 'shelf.yaml', '--json'],
        files: { ...BASE, 'shelf.yaml': text },
        readable: anyIn(text, 'engine.yaml', 'shelf.yaml'),
      }),
      STOPPED,
    ));

  it('as a dyno sheet', () =>
    hold('dyno sheets', mutantOf([BASE['pull.csv']]), (text) => ({
      words: ['pulls', 'pull.csv', '--json'],
      files: { ...BASE, 'pull.csv': text },
      readable: new Set(['pull.csv']),
    })));

  it('as a command line', () =>
    hold(
      'command lines',
      commandLine(
        COMMANDS.map(({ name }) => name),
        OPTIONS,
        [...Object.keys(BASE), '/dev/zero', '../x', '', 'new.csv', 'flow.csv/'],
      ),
      (words) => ({ words, files: BASE, stdin: BASE['engine.yaml'], readable: namedOrBase(words) }),
      QUICK,
    ));
});

/** Files that a text names and that lie in the folder. */
function anyIn(text: string, ...more: readonly string[]): ReadonlySet<string> {
  return {
    ...new Set(more),
    has: (path: string) =>
      ['engine.yaml', ...more].includes(path) ||
      (!path.startsWith('/') && !path.startsWith('..') && text.length > 0),
  } as ReadonlySet<string>;
}

/** Files named on the command line, and the sheets of those that name some. */
function namedOrBase(words: readonly string[]): ReadonlySet<string> {
  const named = words.flatMap((word) => [word, word.slice(word.indexOf('=') + 1)]);
  return new Set([...named, 'flow.csv', 'lobe.csv']);
}
