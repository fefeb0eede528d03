import { describe, expect, it } from 'vitest';
import { curveWarnings } from '../../src/forecast/warnings.ts';
import { runnerOf } from '../studies/fakeCurves.ts';
import { bigBlock } from '../support/bigBlock.ts';

describe('a curve with less than no torque', () => {
  it('says at which speeds, by a code', async () => {
    const combination = bigBlock();
    const [curve] = await runnerOf((_engine, rpm) => (rpm < 9000 ? 100 : 9000 - rpm))([
      { combination, rpm: [3000, 9000, 12_000], fidelity: 'representative' },
    ]);
    const found = curveWarnings(combination, curve?.points ?? [], []).filter(
      ({ code }) => code === 'no-torque',
    );
    expect(found.map(({ message }) => message)).toEqual([
      "friction and pumping take all the engine makes at 9000, 12000 rpm: it can't run there by itself",
    ]);
  });
});
