/** What a back-test says of a sign. */
import { expect, it } from 'vitest';
import { backtestVerdict } from '../src/render/backtestText.ts';
import { sampleBacktest } from './report/sampleStudies.ts';

/** The verdict on a forecast loss of 2 %, of what the pulls saw [-] and are able to show [-]. */
function verdictOf(seen: number, resolvable: number): string {
  const { gain, measured, ...rest } = sampleBacktest();
  if (gain === null) throw new Error('the sample has a gain');
  const forecast = -0.02;
  return backtestVerdict({
    ...rest,
    measured: { ...measured, resolvable },
    gain: { ...gain, forecast, measured: seen, error: forecast - seen, rightSign: forecast * seen > 0 },
  });
}

it('calls a sign wrong where the pulls show one', () => {
  expect(verdictOf(0.015, 0.01)).toContain('The sign is wrong.');
  expect(verdictOf(0.005, 0.01)).not.toContain('sign');
  expect(verdictOf(0, 0.01)).not.toContain('sign');
  expect(verdictOf(-0.015, 0.01)).not.toContain('sign');
});
