import { describe, expect, it } from 'vitest';
import { knobsOf } from '../../src/calibration/knobs.ts';
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
});
