import { expect, it } from 'vitest';
import { CORE } from '../src/core.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';

const sheet = (by: number): string =>
  `# standard: J607\nrpm,torque (lb-ft)\n${[4000, 5000, 6000].map((rpm) => `${rpm},${(200 * by).toFixed(1)}`).join('\n')}\n`;
const rated = (rate: string, by = 1): string => sheet(by).replace('\n', `\n# ${rate}\n`);
const files = {
  'a.csv': sheet(1),
  'b.csv': sheet(1.004),
  'slow.csv': rated('sweep rate: 300 rpm/s'),
  'fast.csv': rated('sweep rate: 600 rpm/s', 0.98),
  'steps.csv': rated('test type: step'),
};

async function said(...words: readonly string[]): Promise<string> {
  const w = world({ files });
  expect(await main(['pulls', ...words], w.io, CORE)).toBe(0);
  return w.out().replace(/\s+/g, ' ');
}

it('pulls of one state that came as a file each are told how to be taken together', async () => {
  expect(await said('a.csv', 'b.csv')).toContain(
    'two or three more would, and files of one state go together with --together.',
  );
  expect(await said('a.csv', 'b.csv', '--together')).toContain('Mean of 2 pulls');
  expect(await said('a.csv')).toContain('two or three more would. speed');
});

it('pulls of two rates are said to differ by what turns, by so much for so much of it', async () => {
  // 2 lb-ft2, 0.0843 kg m2, take 2.65 N m at 300 rpm/s.
  expect(await said('slow.csv', 'fast.csv')).toContain(
    'slow.csv was pulled at 300 rpm/s, fast.csv at 600 rpm/s: for every 2 lb-ft2 that turns, fast.csv shows 2.0 lb-ft less for that alone. A backtest, which knows the engine, allows for it.',
  );
  // 0.1 kg m2 take 3.14 N m.
  expect(await said('slow.csv', 'steps.csv', '--units', 'si')).toContain(
    'slow.csv was pulled at 300 rpm/s, steps.csv at held speeds, or corrected for inertia: for every 0.1 kg m2 that turns, slow.csv shows 3.1 Nm less for that alone.',
  );
  expect(await said('slow.csv', 'a.csv')).toContain(
    'slow.csv says how fast its pulls went (300 rpm/s), a.csv does not: at another rate what turns holds back another torque.',
  );
  expect(await said('slow.csv')).toContain('every speed alike; pulled at 300 rpm/s.');
  const together = await said('slow.csv', 'fast.csv', '--together');
  expect(together).toContain(
    'Its pulls went at 300 rpm/s and 600 rpm/s: for every 2 lb-ft2 that turns they are 2.0 lb-ft apart, which counts as scatter here.',
  );
  expect(together).not.toContain('; pulled at');
  expect(await said('a.csv', 'b.csv')).not.toMatch(/rpm\/s|turns/);
});
