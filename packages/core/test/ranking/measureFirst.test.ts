import { describe, expect, it } from 'vitest';
import { measureFirst } from '../../src/ranking/measureFirst.ts';
import type { Subject } from '../../src/uncertainty/responseSurface.ts';
import type { Unknown } from '../../src/uncertainty/unknown.ts';

const subject = (name: string, effects: Readonly<Record<string, number>>, missed = 0): Subject => ({
  name,
  power: 100,
  responses: Object.fromEntries(Object.entries(effects).map(([id, linear]) => [id, { linear, curved: 0 }])),
  missed: missed === 0 ? [] : [missed],
});
const unknown = (id: string): Unknown =>
  ({ id, path: `path.${id}`, of: null, replacedBy: [] }) as unknown as Unknown;

const UNKNOWNS = ['bench', 'pipe', 'heat'].map(unknown);
const BASE = subject('as it is', { bench: 0.02, heat: 0.01 });

describe('measureFirst(baseline, leaders, unknowns)', () => {
  it('names what brings most of one gain, and how sure the gain is without it', () => {
    // Bench and heat cancel; of the part's own 3 and 4 % the pipe is the larger.
    const part = subject('part', { bench: 0.05, heat: 0.01, pipe: 0.04 });
    const first = measureFirst(BASE, [part], UNKNOWNS);
    expect(first).toMatchObject({ path: 'path.pipe', settles: 'gain', changes: ['part'] });
    expect(first?.sigmaPct).toBeCloseTo(5, 12);
    expect(first?.leftPct).toBeCloseTo(3, 12);
  });

  it('of two leaders names what parts them, not what moves both', () => {
    const one = subject('one', { bench: 0.09, heat: 0.01 });
    const other = subject('other', { bench: 0.09, heat: 0.03, pipe: 0.01 });
    const first = measureFirst(BASE, [one, other], UNKNOWNS);
    expect(first).toMatchObject({ path: 'path.heat', settles: 'order', changes: ['one', 'other'] });
    expect(first?.sigmaPct).toBeCloseTo(Math.hypot(2, 1), 12);
    expect(first?.leftPct).toBeCloseTo(1, 12);
  });

  it('prefers what can be measured to a figure of the model, and names that where nothing else stands out', () => {
    const model = { id: 'walls', path: 'heat.multiplier', of: null, replacedBy: [] } as unknown as Unknown;
    const part = subject('part', { bench: 0.02, heat: 0.01, pipe: 0.03, walls: 0.04 });
    const known = measureFirst(BASE, [part], [...UNKNOWNS, model]);
    expect(known).toMatchObject({ path: 'path.pipe', by: 'measuring' });
    expect(known?.leftPct).toBeCloseTo(4, 12);
    const other = subject('other', { bench: 0.02, heat: 0.01, pipe: 0.01, walls: 0.04 });
    expect(measureFirst(BASE, [other], [...UNKNOWNS, model])).toMatchObject({
      path: 'heat.multiplier',
      by: 'pull',
    });
  });

  it('counts the error of the model, which no measurement takes away and two alike changes share', () => {
    const part = { ...subject('part', { bench: 0.02, heat: 0.01, pipe: 0.04 }), modelError: { part: 0.03 } };
    const first = measureFirst(BASE, [part], UNKNOWNS);
    expect(first?.sigmaPct).toBeCloseTo(5, 12);
    expect(first?.leftPct).toBeCloseTo(3, 12);
    const twin = { ...subject('twin', { bench: 0.02, heat: 0.03 }), modelError: { part: 0.03 } };
    expect(measureFirst(BASE, [part, twin], UNKNOWNS)?.sigmaPct).toBeCloseTo(Math.hypot(4, 2), 12);
  });

  it('is nothing where what was looked at together outweighs every single one, or nobody leads', () => {
    expect(measureFirst(BASE, [subject('part', { bench: 0.03, heat: 0.01 }, 0.1)], UNKNOWNS)).toBeNull();
    expect(measureFirst(BASE, [], UNKNOWNS)).toBeNull();
  });
});
