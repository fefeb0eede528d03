import { expect, it } from 'vitest';
import { CORE } from '../src/core.ts';
import { main } from '../src/main.ts';
import { world } from './fakeIo.ts';

const sheet = (by: number): string =>
  `# standard: J607\nrpm,torque (lb-ft)\n${[4000, 5000, 6000].map((rpm) => `${rpm},${(200 * by).toFixed(1)}`).join('\n')}\n`;
const files = { 'a.csv': sheet(1), 'b.csv': sheet(1.004) };

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
