/** What a chart draws, says and lists is what its result says. */
import { describe, expect, it } from 'vitest';
import { gainBySpeed } from '../../src/report/charts/backtestCharts.ts';
import { fitBySpeed, fitDifference, knobMoves } from '../../src/report/charts/calibrationCharts.ts';
import { flowUsed } from '../../src/report/charts/flowUsed.ts';
import { octaneMargin } from '../../src/report/charts/octaneMargin.ts';
import { pairMatrix } from '../../src/report/charts/pairMatrix.ts';
import { pressureLoop } from '../../src/report/charts/pressureLoop.ts';
import type { Layer } from '../../src/report/draw/plot.ts';
import { engineSheetMarkup } from '../../src/report/engineSheet.ts';
import type { Figure } from '../../src/report/figure.ts';
import { sampleCurve, samplePoint } from '../sampleCurve.ts';
import { sampleInspection, sampleTrace, sampleValves } from './sampleEngine.ts';
import { sampleRanking } from './sampleRankings.ts';
import { sampleBacktest, sampleCalibration } from './sampleStudies.ts';

function layersOf(figure: Figure | null): readonly Layer[] {
  if (figure?.drawing.kind !== 'plot') throw new Error('it is drawn as a plot');
  return figure.drawing.plot.layers;
}

/** A layer's points, or what stands for them, by its name. */
function drawnAs(figure: Figure | null, name: string): unknown {
  const layer = layersOf(figure).find((one) => one.kind !== 'note' && one.name === name);
  return layer !== undefined && 'points' in layer ? layer.points : layer;
}

/** The table behind a figure: cells of each row. */
function rowsOf({ table }: Figure): readonly (readonly string[])[] {
  const [, body] = table.markup('figures').markup.split('<tbody>');
  return body
    .split('</tr>')
    .slice(0, -1)
    .map((row) => [...row.matchAll(/<t[hd][^>]*>(.*?)<\/t[hd]>/gu)].map(([, cell]) => cell));
}

describe('charts of an engine', () => {
  it('draw each stroke of the pressure loop from its own angles', () => {
    const trace = sampleTrace();
    const loop = pressureLoop(trace, 'si');
    const strokes = { intake: -360, compression: -180, expansion: 0, exhaust: 180 };
    for (const [name, from] of Object.entries(strokes)) {
      const points = trace.angleDeg.flatMap((angle, i) =>
        angle >= from && angle <= from + 180
          ? [{ x: 1e6 * trace.volumeM3[i], y: trace.pressurePa[i] / 1e5 }]
          : [],
      );
      expect(drawnAs(loop, name), name).toEqual(points);
    }
  });

  it('list the flow at the upper end of each lift, and how long the valve stays there', () => {
    const { intake } = sampleValves();
    const rows = rowsOf(flowUsed('intake', intake, 'trade'));
    // The sample's flow is a sine of lift, straight between 25 points.
    const at = (mm: number): number => {
      const place = (24 * mm) / intake.peakLiftMm;
      const low = Math.min(23, Math.floor(place + 1e-9));
      return intake.flow[low].cfm28 + (place - low) * (intake.flow[low + 1].cfm28 - intake.flow[low].cfm28);
    };
    for (const [i, { fromMm, toMm, crankDeg }] of intake.dwell.entries())
      expect(rows[i]).toEqual([
        (fromMm / 25.4).toFixed(3),
        (toMm / 25.4).toFixed(3),
        crankDeg.toFixed(1),
        at(toMm).toFixed(0),
      ]);
  });

  it('say what octane is to spare at the spark of the forecast, not at the best', () => {
    const points = [3000, 4000].map((rpm) =>
      samplePoint(rpm, { octaneRequired: rpm / 50, octaneAtBestTiming: 99 }),
    );
    const margin = octaneMargin(sampleCurve([3000, 4000], { points }), 93);
    expect(margin?.description).toContain('The fuel has at least 13.0 to spare, least at 4000 rpm.');
    const short = octaneMargin(sampleCurve([3000, 4000], { points }), 78);
    expect(short?.description).toContain('The fuel is 2.0 short at 4000 rpm: it detonates there.');
  });

  it('have intake before exhaust on the sheet of the engine', () => {
    const sheet = engineSheetMarkup(sampleInspection(), 'trade').markup;
    for (const words of [
      '250 / 190 cfm',
      '0.559 in / 0.551 in',
      '2.17 in2 / 1.55 in2',
      '750 cfm at 1.5 inHg',
    ])
      expect(sheet).toContain(words);
  });
});

describe('charts of studies', () => {
  it('draw each knob in standard deviations of what was believed before, with what is left of them', () => {
    const { drawing } = knobMoves(sampleCalibration());
    if (drawing.kind !== 'rows') throw new Error('it is drawn as rows');
    // By hand: from 1 +/- 0.12 to 0.94 +/- 0.05.
    const [row] = drawing.rows.rows;
    expect(row.value).toBeCloseTo(-0.5, 9);
    expect(row.error?.[0]).toBeCloseTo(-0.5 - 5 / 12, 9);
    expect(row.error?.[1]).toBeCloseTo(-0.5 + 5 / 12, 9);
  });

  it('shade what a fit allows a figure, and draw what it leaves over', () => {
    const [rpm] = sampleCalibration().points.map((point) => point.rpm);
    const fit = fitBySpeed(sampleCalibration(), 'si');
    expect((drawnAs(fit, 'allowed') as unknown[])[0]).toEqual({ x: rpm, low: 788, high: 812 });
    expect((drawnAs(fit, 'before') as unknown[])[0]).toEqual({ x: rpm, y: 780 });
    expect((drawnAs(fit, 'after') as unknown[])[0]).toEqual({ x: rpm, y: 798 });
    expect((drawnAs(fit, 'measured') as unknown[])[0]).toEqual({ x: rpm, y: 800 });
    const left = fitDifference(sampleCalibration(), 'si');
    expect((drawnAs(left, 'allowed') as unknown[])[0]).toEqual({ x: rpm, low: -1.5, high: 1.5 });
    expect((drawnAs(left, 'before') as { y: number }[])[0].y).toBeCloseTo(-2.5, 9);
    expect((drawnAs(left, 'after') as { y: number }[])[0].y).toBeCloseTo(-0.25, 9);
  });

  it('shade around a measured gain what the pulls tell apart, and around the forecast its spread', () => {
    const gain = gainBySpeed(sampleBacktest(), 'si');
    const [shaded] = drawnAs(gain, 'what the pulls can show, 0.7 %') as { low: number; high: number }[];
    expect(shaded.low).toBeCloseTo(2 - 0.65, 9);
    expect(shaded.high).toBeCloseTo(2 + 0.65, 9);
    const [ribbon] = drawnAs(gain, 'one standard deviation') as { low: number; high: number }[];
    expect(ribbon.low).toBeCloseTo(2.5 - 0.2, 9);
    expect(ribbon.high).toBeCloseTo(2.5 + 0.2, 9);
  });

  it('have the pair of a row and a column where they meet', () => {
    const names = ['headers', 'cam', 'carburetor'];
    const { drawing } = pairMatrix(sampleRanking(names)) ?? {};
    if (drawing?.kind !== 'spec') throw new Error('it is drawn by its own specification');
    const [{ values }] = drawing.spec(400).data as {
      values: { row: number; column: number; text: string }[];
    }[];
    // Rows begin with the second change: headers and cam meet in the first cell of the first row.
    expect(values.map(({ row, column, text }) => [row, column, text])).toEqual([
      [0, 0, '+0.6'],
      [1, 0, '-0.1'],
      [1, 1, '+0.6'],
    ]);
  });
});
