/** Names from a file on a drawing: whole where there is room, and never a piece of another meaning. */
import { describe, expect, it } from 'vitest';
import { seriesName } from '../../src/report/charts/bySpeed.ts';
import { rowsSpec } from '../../src/report/draw/rows.ts';
import { toSvg } from '../../src/report/draw/toSvg.ts';

const LONG = 'Headers of 1-7/8 in and longer collectors';

describe('a name in a legend', () => {
  it('of a part with a fraction in it stays that of the part', () =>
    expect(seriesName(LONG)).toMatch(/^Headers of 1-7\/8 in/u));

  it('of a long path is that of its file', () =>
    expect(seriesName('customers/Tern Street Engines/spring builds/heads/engine.yaml')).toBe('engine.yaml'));
});

describe('names beside bars', () => {
  const rows = [LONG, 'Longer cam'].map((name, i) => ({
    name,
    group: `tie ${i + 1}`,
    value: i,
    error: null,
    figure: '+11 hp',
    colour: 'a' as const,
  }));
  const drawn = async (width: number): Promise<string> =>
    (
      await toSvg(rowsSpec({ title: 'gain', rows, noise: 0 }, width), {
        id: 'x',
        title: 't',
        description: 'd',
      })
    ).markup;

  it.each([960, 400])('take another line rather than lose their end, %i px wide', async (width) => {
    const text = [...(await drawn(width)).matchAll(/>([^<>]+)</gu)].map(([, words]) => words).join(' ');
    expect(text).toContain('collectors');
    expect(text).not.toContain('...');
  });
});
