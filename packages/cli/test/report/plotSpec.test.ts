import { describe, expect, it } from 'vitest';
import type { Layer, Plot } from '../../src/report/draw/plot.ts';
import { USUAL_SIZE } from '../../src/report/draw/plot.ts';
import { plotSpec } from '../../src/report/draw/plotSpec.ts';
import { toSvg } from '../../src/report/draw/toSvg.ts';

const caption = { id: 'x', title: 'A <title>', description: 'What "is" to be seen' };

async function drawn(layers: readonly Layer[], axes: Partial<Plot> = {}): Promise<string> {
  const plot = { x: { title: 'speed' }, y: { title: 'amount' }, layers, ...axes };
  return (await toSvg(plotSpec(plot, USUAL_SIZE), caption)).markup;
}

const line: Layer = {
  kind: 'line',
  name: 'torque',
  points: [
    { x: 1000, y: 0 },
    { x: 2000, y: 50 },
    { x: 3000, y: 100 },
  ],
  colour: 'a',
};

describe('plotSpec(plot, size)', () => {
  it('places points in proportion between the ends of the axes', async () => {
    const svg = await drawn([line], { y: { title: 'amount', domain: [0, 100] } });
    // The path of the line: left bottom, middle, right top of a plot 430 - 50 - 18 wide and 300 - 24 - 44 high.
    expect(svg).toMatch(/d="M0,226L181,113L362,0"/);
  });

  it('keeps the last speed of a motorcycle within the drawing', async () => {
    const fast = await drawn([
      {
        ...line,
        points: [
          { x: 6000, y: 0 },
          { x: 12000, y: 100 },
        ],
      },
    ]);
    // Anchored at its end, at the right edge of the plot, where its half would stand beyond the drawing.
    expect(fast).toMatch(/<text[^>]*text-anchor="end"[^>]*>12,?000</);
    expect(await drawn([line])).not.toMatch(/<text[^>]*text-anchor="end"[^>]*>3,?000</);
  });

  it('has a title and a description that name the drawing', async () => {
    const svg = await drawn([line]);
    expect(svg).toContain('role="img" aria-labelledby="x-title x-text"');
    expect(svg).toContain('<title id="x-title">A &lt;title&gt;</title>');
    expect(svg).toContain('<desc id="x-text">What &quot;is&quot; to be seen</desc>');
  });

  it('names layers above the plot where there is more than one, and makes room for them', async () => {
    const alone = await drawn([line]);
    expect(alone).not.toContain('>torque<');
    const power: Layer = { ...line, name: 'power <hp>', dash: 'dashed' };
    const both = await drawn([line, power]);
    expect(both).toContain('>torque<');
    expect(both).toContain('>power &lt;hp&gt;<');
    const height = (svg: string): number => Number(/viewBox="0 0 \S+ (\S+)"/.exec(svg)?.[1]);
    expect(height(both)).toBe(height(alone) + 24);
  });

  it('draws a single point and a level line without a number that is none', async () => {
    const single: Layer = { kind: 'line', name: null, points: [{ x: 5000, y: 7 }], colour: 'a' };
    const level: Layer = {
      kind: 'line',
      name: null,
      points: [
        { x: 1, y: 0 },
        { x: 2, y: 0 },
      ],
      colour: 'b',
    };
    for (const layers of [[single], [level], [single, { ...single, kind: 'line', name: null }]] as Layer[][])
      expect(await drawn(layers)).not.toMatch(/NaN|Infinity|undefined/);
  });

  it('keeps colours as names, so that one drawing serves light, dark and paper', async () => {
    const svg = await drawn([line]);
    expect(svg).toContain('stroke="var(--a)"');
    expect(svg.replace(/url\([^)]*\)/g, '')).not.toMatch(/(fill|stroke)="#/);
  });

  it('breaks a line where its points lie far apart, and names it once', async () => {
    const points = [1000, 1500, 3500, 4000].map((x) => ({ x, y: x / 100 }));
    const svg = await drawn([
      { ...line, points, far: 750 },
      { ...line, name: 'other' },
    ]);
    const dashed = [...svg.matchAll(/<path d="M([^"]*)" stroke="var\(--a\)"[^>]*stroke-dasharray="6,5"/g)];
    expect(dashed).toHaveLength(1);
    expect(dashed[0][1].split('L')).toHaveLength(2);
    expect(svg.match(/>torque</g)).toHaveLength(1);
  });

  it('spans at least what an axis asks for, around what is drawn or up from zero', async () => {
    const level: Layer = { ...line, points: line.points.map(({ x }) => ({ x, y: 100 + x / 1e4 })) };
    const figures = (svg: string): number[] =>
      [...svg.matchAll(/>(\d+)<\/text>/g)].map(([, text]) => Number(text)).filter((value) => value < 500);
    const wide = figures(await drawn([level], { y: { title: 'amount', least: 20 } }));
    expect(Math.max(...wide) - Math.min(...wide)).toBeGreaterThanOrEqual(20);
    expect(Math.min(...wide)).toBeGreaterThan(50);
    const low: Layer = { ...line, points: line.points.map(({ x }) => ({ x, y: x / 1e4 })) };
    const up = figures(await drawn([low], { y: { title: 'amount', zero: true, least: 8 } }));
    expect(Math.min(...up)).toBe(0);
    expect(Math.max(...up)).toBeGreaterThanOrEqual(8);
    expect(Math.max(...up)).toBeLessThanOrEqual(10);
    // What lies above the least span is not cut off, wherever it begins.
    const high: Layer = { ...line, points: line.points.map(({ x }) => ({ x, y: 5 + x / 300 })) };
    const all = figures(await drawn([high], { y: { title: 'amount', zero: true, least: 8 } }));
    expect(Math.max(...all)).toBeGreaterThanOrEqual(15);
  });

  it('draws the same every time', async () => {
    expect(await drawn([line])).toBe(await drawn([line]));
  });
});
