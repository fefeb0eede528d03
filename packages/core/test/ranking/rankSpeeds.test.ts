import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/base/errors.ts';
import { pinBaseline } from '../../src/changes/baseline.ts';
import { inspectCombination } from '../../src/forecast/inspection.ts';
import { rankSpeeds } from '../../src/ranking/rankSpeeds.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { exampleSheet, exampleText } from '../reading/files.ts';

function minimum() {
  const read = readDocument(exampleText('minimum'));
  const pinned = read.ok ? pinBaseline(read.value, { sheet: exampleSheet('minimum') }) : read;
  if (!pinned.ok) throw new Error('no engine');
  return pinned.value;
}

describe('rankSpeeds(baseline, asked)', () => {
  it('takes the band from the first speed asked for to the last, and looks at those', () => {
    const { band, gains, responses } = rankSpeeds(minimum(), { rpm: [2000, 2500, 5000] });
    expect(band).toEqual({ fromRpm: 2000, toRpm: 5000 });
    expect(gains).toEqual([2000, 2500, 5000]);
    // Middles of its thirds.
    expect(responses).toEqual([2500, 3500, 4500]);
  });

  it("takes the engine's own band where nothing is asked for, in quarters", () => {
    const engine = minimum();
    const { fromRpm, toRpm } = inspectCombination(engine.combination).band;
    const { band, gains } = rankSpeeds(engine, {});
    expect(band).toEqual({ fromRpm, toRpm });
    expect(gains).toEqual([0, 1, 2, 3, 4].map((i) => Math.round(fromRpm + (i * (toRpm - fromRpm)) / 4)));
  });

  it("looks below a band that begins well above the engine's own, and at it alone where both begin alike", () => {
    const engine = minimum();
    const { fromRpm } = inspectCombination(engine.combination).band;
    const high = { fromRpm: fromRpm + 1000, toRpm: fromRpm + 3000 };
    expect(rankSpeeds(engine, { band: high }).gains).toEqual([
      fromRpm,
      ...[1000, 1500, 2000, 2500, 3000].map((more) => fromRpm + more),
    ]);
    // A tenth of its width of 2000 rpm adds nothing.
    const near = { fromRpm: fromRpm + 200, toRpm: fromRpm + 2200 };
    expect(rankSpeeds(engine, { band: near }).gains).toHaveLength(5);
    expect(
      rankSpeeds(engine, { band: { fromRpm: fromRpm + 201, toRpm: fromRpm + 2201 } }).gains,
    ).toHaveLength(6);
  });

  it('refuses a band that does not rise', () => {
    expect(() => rankSpeeds(minimum(), { band: { fromRpm: 5000, toRpm: 4000 } })).toThrow(DomainError);
    expect(() => rankSpeeds(minimum(), { band: { fromRpm: 0, toRpm: 4000 } })).toThrow(DomainError);
  });
});
