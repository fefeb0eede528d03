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

  it('lets a dyno read a tenth beside the engine at most, and 0.15 beside 0.87 where driveline and tyres lie between', () => {
    const text = fileWith({});
    const [document, engine] = [readDocument(text), readCombination(text)];
    if (!document.ok || !engine.ok) throw new Error('it reads well');
    const reach = (place: 'engine' | 'wheels') => {
      const dyno = knobsOf(['flow', 'dyno'], document.value, engine.value.assumed, place)[1];
      return [dyno.value, dyno.min / dyno.value, dyno.max / dyno.value].map((x) => Number(x.toFixed(12)));
    };
    expect(reach('engine')).toEqual([1, 0.9, 1.1]);
    expect(reach('wheels')).toEqual([0.87, 0.85, 1.15]);
  });

  it('is written with five digits, which are finer than any fit', () => {
    expect(knobText('heat.multiplier', 1.0234567)).toBe(1.0235);
    expect(knobText('burn.efficiency', 0.9612345)).toBe('96.123 %');
  });
});
