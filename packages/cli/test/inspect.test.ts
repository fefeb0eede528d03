import { describe, expect, it } from 'vitest';
import { CORE } from '../src/core.ts';
import { main } from '../src/main.ts';
import { engineSheetMarkup } from '../src/report/engineSheet.ts';
import { world } from './fakeIo.ts';
import { sampleInspection } from './report/sampleEngine.ts';

async function inspected(induction: string): Promise<string> {
  const text = `
engine: { cylinders: 8, layout: v, bore: 4.000 in, stroke: 3.480 in }
chamber: { compression: 9.5 }
heads: { valvesPerCylinder: 2 }
induction: ${induction}
`;
  const w = world({ files: { 'engine.yaml': text } });
  expect(await main(['inspect', 'engine.yaml'], w.io, CORE)).toBe(0);
  return w.out();
}

describe('inspect of several carburetors', () => {
  it('says that what they pass is that of all together: two of 350 cfm are 700', async () => {
    const carburetor = (more: string) =>
      inspected(`{ carburetor: { rating: 350 cfm, barrels: 4, ratedAt: 1.5 inHg${more} } }`);
    expect(await carburetor(', count: 2')).toContain('; 2 carburetors together 700 cfm at 1.5 inHg\n');
    expect(await carburetor('')).toContain('; carburetor 350 cfm at 1.5 inHg\n');
  });

  it('says so of throttles that nobody counted either', async () => {
    const each = await inspected('{ throttle: {}, manifold: individual-throttles }');
    expect(each).toMatch(/; 8 throttles together\s+[\d.]+ cfm at 1\.5 inHg\n/u);
  });

  it('says so in a report', () => {
    const labels = (inductionKind: 'carburetor' | 'throttle', inductionCount: number) => {
      const inspection = sampleInspection();
      const flow = { ...inspection.flow, inductionKind, inductionCount };
      return /<dt>([^<]*)<\/dt><dd>[^<]*<\/dd><\/div>\s*<\/dl>/u.exec(
        engineSheetMarkup({ ...inspection, flow }, 'trade').markup,
      )?.[1];
    };
    expect(labels('carburetor', 1)).toBe('Carburetor');
    expect(labels('carburetor', 3)).toBe('3 carburetors together');
    expect(labels('throttle', 2)).toBe('2 throttle bodies together');
  });
});
