import { describe, expect, it } from 'vitest';
import { knobsOf, knobText } from '../../src/calibration/knobs.ts';
import { readCombination } from '../../src/reading/readCombination.ts';
import { readDocument } from '../../src/reading/readDocument.ts';
import { fileWith } from '../reading/files.ts';

const efficiencyOf = (efficiency: string): number => {
  const text = fileWith({ burn: `{ efficiency: ${efficiency} }` });
  const [document, engine] = [readDocument(text), readCombination(text)];
  if (!document.ok || !engine.ok) throw new Error('it reads well');
  return knobsOf(['efficiency'], document.value, engine.value.assumed)[0].value;
};

describe('a knob', () => {
  it('begins at what the file states, in percent', () => {
    expect(efficiencyOf('93 %')).toBeCloseTo(0.93, 12);
  });

  it('is answered in a straight line where it only scales what torque is made of, and else as the fit finds it', () => {
    const text = fileWith({});
    const [document, engine] = [readDocument(text), readCombination(text)];
    if (!document.ok || !engine.ok) throw new Error('it reads well');
    const knobs = knobsOf(
      ['flow', 'metering', 'heat', 'friction', 'efficiency'],
      document.value,
      engine.value.assumed,
    );
    expect(Object.fromEntries(knobs.map(({ name, effect }) => [name, effect]))).toEqual({
      flow: undefined,
      metering: undefined,
      heat: 'straight',
      friction: 'straight',
      efficiency: 'straight',
    });
  });

  it('is written with five digits, which are finer than any fit', () => {
    expect(knobText('heat.multiplier', 1.0234567)).toBe(1.0235);
    expect(knobText('burn.efficiency', 0.9612345)).toBe('96.123 %');
  });
});
