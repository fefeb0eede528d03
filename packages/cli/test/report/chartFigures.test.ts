/** What a chart draws, says and lists is what its result says. */
import { readDynoSheet, summarisePulls } from '@valvetide/core';
import { describe, expect, it } from 'vitest';
import { againstMeasured } from '../../src/render/againstMeasured.ts';
import { gainBySpeed } from '../../src/report/charts/backtestCharts.ts';
import { bestBuilds } from '../../src/report/charts/bestBuilds.ts';
import { fitBySpeed, fitDifference, knobMoves } from '../../src/report/charts/calibrationCharts.ts';
import { choiceEffects } from '../../src/report/charts/choiceEffects.ts';
import { depression } from '../../src/report/charts/depression.ts';
import { differenceBySpeed } from '../../src/report/charts/differenceBySpeed.ts';
import { filling } from '../../src/report/charts/filling.ts';
import { flowUsed } from '../../src/report/charts/flowUsed.ts';
import { measuredDifference } from '../../src/report/charts/measuredDifference.ts';
import { moneyFrontier } from '../../src/report/charts/moneyFrontier.ts';
import { octaneMargin } from '../../src/report/charts/octaneMargin.ts';
import { octaneToSpare } from '../../src/report/charts/octaneToSpare.ts';
import { pairMatrix } from '../../src/report/charts/pairMatrix.ts';
import { pressureLoop } from '../../src/report/charts/pressureLoop.ts';
import { pressureOverlay } from '../../src/report/charts/pressureOverlay.ts';
import { pullCurves, pullScatter } from '../../src/report/charts/pullCharts.ts';
import { rankedChanges } from '../../src/report/charts/rankedChanges.ts';
import {
  fillingLosses,
  restrictionBars,
  restrictionLines,
} from '../../src/report/charts/restrictionCharts.ts';
import { sideBySide } from '../../src/report/charts/sideBySide.ts';
import { sweptCurves } from '../../src/report/charts/sweptCurves.ts';
import { sweptValues } from '../../src/report/charts/sweptValues.ts';
import { torqueAndPower } from '../../src/report/charts/torqueAndPower.ts';
import { valveLift } from '../../src/report/charts/valveLift.ts';
import type { Layer } from '../../src/report/draw/plot.ts';
import { engineSheetMarkup } from '../../src/report/engineSheet.ts';
import type { Figure } from '../../src/report/figure.ts';
import { sampleCurve, samplePoint } from '../sampleCurve.ts';
import { RPM } from './sampleBasis.ts';
import { sampleInspection, sampleTrace, sampleValves } from './sampleEngine.ts';
import { samplePressures } from './samplePressures.ts';
import { sampleChosen, sampleRanking } from './sampleRankings.ts';
import {
  sampleBacktest,
  sampleCalibration,
  sampleComparison,
  sampleRestrictions,
  sampleSweep,
} from './sampleStudies.ts';

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

  it('draw torque and power of each curve over speed, in the units of the page', () => {
    const comparison = sampleComparison(['as it is', 'cam']);
    const curves = comparison.entries.flatMap(({ name, curve }) => (curve === null ? [] : [{ name, curve }]));
    for (const [what, of, trade] of [
      ['torque', 'torqueNm', 1.3558179483],
      ['power', 'powerKw', 0.7456998716],
    ] as const) {
      const figure = sideBySide(curves, what, comparison.band, 'trade');
      for (const { name, curve } of curves) {
        const drawn = drawnAs(figure, name) as { x: number; y: number }[];
        expect(drawn.map(({ x }) => x)).toEqual(RPM);
        for (const [i, point] of curve.points.entries())
          if (point.status !== 'lost') expect(drawn[i].y).toBeCloseTo(point[of] / trade, 6);
      }
    }
  });

  it('draw both ribbons of a forecast as wide as its spread, and what was measured as dots', () => {
    const curve = sampleCurve([3000, 4000]);
    const [first] = curve.points;
    if (first.status === 'lost') throw new Error('the sample has figures');
    const figure = torqueAndPower(curve, 'si', {
      spreadNm: [20, 24],
      measured: [{ rpm: 4000, torqueNm: 800 }],
    });
    const [torque, power] = layersOf(figure).filter(({ kind }) => kind === 'ribbon');
    if (torque.kind !== 'ribbon' || power.kind !== 'ribbon') throw new Error('both have ribbons');
    expect(torque.points[0]).toEqual({ x: 3000, low: first.torqueNm - 20, high: first.torqueNm + 20 });
    // By hand: 20 N m at 3000 rpm are 6.283 kW.
    expect(power.points[0].high - power.points[0].low).toBeCloseTo(2 * 6.283, 3);
    expect(drawnAs(figure, 'torque measured')).toEqual([{ x: 4000, y: 800 }]);
    const [measured] = drawnAs(figure, 'power measured') as { y: number }[];
    expect(measured.y).toBeCloseTo((800 * 4000 * Math.PI) / 30_000, 9);
  });

  it('draw differences with their ribbons, and as a strip what a dyno does not show', () => {
    const byRpm = [3000, 4000].map((rpm, i) => ({ rpm, torqueNm: 12 + i, torquePct: 1.5 + i }));
    const figure = differenceBySpeed(
      [{ name: 'cam', byRpm, sigmaNm: [null, 4] }],
      { reference: 'as it is', referenceTorqueNm: [800, 820], resolvablePct: 0.5, firstColour: 1 },
      'si',
    );
    expect(drawnAs(figure, 'less than a dyno shows, 0.50 %')).toEqual([
      { x: 3000, low: -4, high: 4 },
      { x: 4000, low: -4.1, high: 4.1 },
    ]);
    expect(drawnAs(figure, 'one standard deviation')).toEqual([{ x: 4000, low: 9, high: 17 }]);
    expect(drawnAs(figure, 'cam')).toEqual([
      { x: 3000, y: 12 },
      { x: 4000, y: 13 },
    ]);
    expect(rowsOf(figure)).toEqual([
      ['3000', '+12.0', '+1.5', ''],
      ['4000', '+13.0', '+2.5', '4.0'],
    ]);
  });

  it('draw a sweep over its values, and the best curves over speed', () => {
    const variable = { path: 'cam.advance', values: ['0 deg', '2 deg', '4 deg'], current: '4 deg' };
    const sweep = sampleSweep([variable]);
    const values = sweptValues(sweep, 'si');
    expect(drawnAs(values, 'with the value')).toEqual([0, 2, 4].map((x, i) => ({ x, y: 420 + i })));
    expect(drawnAs(values, 'as it is')).toMatchObject({ y: 422 });
    expect(rowsOf(values)[1]).toEqual(['2 deg', '421.0', '-0.2', '830', '501', '']);
    const { drawing } = sweptCurves(sweep, 'si') ?? {};
    if (drawing?.kind !== 'panels') throw new Error('it is drawn in panels');
    const [, own] = drawing.panels.panels[0].layers;
    expect(own).toMatchObject({ points: RPM.map((rpm) => ({ x: rpm, y: 780 + rpm / 1000 })) });
    expect(drawing.panels.panels.map(({ title }) => title)).toEqual(['0 deg', '2 deg', '4 deg (best)']);
  });

  it('draw what is in the way over the band and by speed, and what takes of the air', () => {
    const study = sampleRestrictions('as it is');
    const bars = restrictionBars(study);
    if (bars?.drawing.kind !== 'rows') throw new Error('it is drawn as rows');
    expect(bars.drawing.rows.rows.map(({ name, value, figure }) => [name, value, figure])).toEqual([
      ['air cleaner', 0, 'is free'],
      ['carburetor', 0.8, '+0.8 %'],
      ['intake port', 3, '+3.0 %'],
      ['collector, muffler', -0.5, '-0.5 %'],
      ['friction', 8, '+8.0 %'],
    ]);
    const lines = restrictionLines(study, 'in the way');
    expect(drawnAs(lines, 'intake port')).toEqual(RPM.map((rpm, i) => ({ x: rpm, y: 1 + i })));
    expect(layersOf(restrictionLines(study, 'beside')).map((layer) => 'name' in layer && layer.name)).toEqual(
      [null, 'friction'],
    );
    const losses = fillingLosses(study);
    expect(drawnAs(losses, 'depression')).toEqual(RPM.map((rpm) => ({ x: rpm, y: rpm / 2000 })));
    expect(drawnAs(losses, 'warmth')).toEqual(RPM.map((rpm) => ({ x: rpm, y: 2 })));
    expect(drawnAs(losses, 'residual gas')).toEqual(RPM.map((rpm) => ({ x: rpm, y: -0.5 })));
  });

  it('draw changes, builds and choices as bars with their errors, and money against gain', () => {
    const barsOf = (figure: Figure | null) => {
      if (figure?.drawing.kind !== 'rows') throw new Error('it is drawn as rows');
      return figure.drawing.rows.rows.map(({ name, value, error, figure: said }) => ({
        name,
        value,
        error,
        said,
      }));
    };
    expect(barsOf(rankedChanges(sampleRanking(['headers', 'cam']), 'si'))[0]).toEqual({
      name: 'headers',
      value: 2,
      error: [1.6, 2.4],
      said: '+8.4 kW',
    });
    const chosen = sampleChosen();
    expect(barsOf(bestBuilds(chosen, 'si'))[3]).toEqual({
      name: 'Milled heads',
      value: 1.2,
      error: [1.2 - 0.8, 2],
      said: '+2.9 kW',
    });
    expect(barsOf(choiceEffects(chosen)).map(({ name, value }) => [name, value])).toEqual([
      ['Cam: as it is', -1.6],
      ['Longer cam', 1.6],
      ['Headers: as it is', -0.9],
      ['Headers of 1-7/8 in and longer collectors', 0.9],
    ]);
    const money = moneyFrontier(chosen);
    expect(drawnAs(money, 'most gain for the money')).toEqual(
      [...chosen.builds].reverse().map(({ cost, gainPct }) => ({ x: cost, y: gainPct })),
    );
    expect(money?.description).toContain('from 0.0 % for 0 to +6.2 % for 2140');
  });

  it('draw filling, depression and octane to spare of a curve', () => {
    const points = [3000, 4000].map((rpm) =>
      samplePoint(rpm, {
        volumetricEfficiency: rpm / 4000,
        manifoldVacuumInHg: rpm / 2000,
        octaneRequired: rpm / 50,
      }),
    );
    const named = { name: 'sample', curve: sampleCurve([3000, 4000], { points }) };
    const at = (figure: Figure | null) => (drawnAs(figure, 'sample') as { y: number }[]).map(({ y }) => y);
    expect(at(filling([named]))).toEqual([75, 100]);
    expect(filling([named])?.description).toContain('Best: 100.0 % at 4000 rpm.');
    expect(at(depression([named], 'trade'))).toEqual([1.5, 2]);
    expect(at(depression([named], 'si'))[1]).toBeCloseTo(6.773, 3);
    expect(at(octaneToSpare([{ ...named, fuelOctane: 93 }]))).toEqual([33, 13]);
    expect(octaneToSpare([{ ...named, fuelOctane: 93 }]).description).toContain('sample +13.0 at 4000 rpm');
  });

  it('draw what was measured over what was forecast', () => {
    const [overlay] = samplePressures().overlays;
    const figure = pressureOverlay('exhaust-pressure', overlay, 'si');
    for (const [name, of] of [
      ['measured', overlay.measuredPa],
      ['forecast', overlay.forecastPa],
    ] as const)
      expect(drawnAs(figure, name)).toEqual(overlay.angleDeg.map((x, i) => ({ x, y: of[i] / 1e5 })));
    const lift = valveLift(sampleValves(), 'si');
    const top = (name: string): number =>
      Math.max(...(drawnAs(lift, name) as { y: number }[]).map(({ y }) => y));
    const { intake, exhaust } = sampleValves();
    expect(top('intake')).toBeCloseTo(Math.max(...intake.liftMm), 9);
    expect(top('exhaust')).toBeCloseTo(Math.max(...exhaust.liftMm), 9);
  });

  it('draw the scatter of pulls about nothing and by speed, and each mean with its own pulls', () => {
    const text = '# standard: J607\nrpm,torque (Nm),pull\n4000,300,1\n5000,310,1\n4000,306,2\n5000,310,2\n';
    const sheets = ['before.csv', 'after.csv'].map((name) => {
      const read = readDynoSheet(text, { name });
      if (!read.ok) throw new Error(read.problems[0].message);
      return read.value;
    });
    const summaries = sheets.map((sheet) => summarisePulls(sheet));
    const curves = pullCurves(sheets, summaries, 'torque', 'si');
    for (const name of ['before.csv', 'after.csv'])
      expect(drawnAs(curves, name)).toEqual([
        { x: 4000, y: 303 },
        { x: 5000, y: 310 },
      ]);
    const looks = layersOf(curves).map((layer) => 'colour' in layer && layer.colour);
    expect(looks).toEqual(['a', 'a', 'b', 'b']);
    // By hand: 300 and 306 lie sqrt(18) about their mean of 303.
    const [first] = drawnAs(pullScatter(summaries), 'before.csv') as { y: number }[];
    expect(first.y).toBeCloseTo((100 * Math.sqrt(18)) / 303, 6);
    const beside = againstMeasured(sampleCurve([4000, 5000]), summaries[0]);
    if (beside === null) throw new Error('they share their speeds');
    const { deviation = 0 } = summaries[0].repeatability ?? {};
    const [strip] = drawnAs(measuredDifference(beside, 'si'), 'scatter of a pull') as { high: number }[];
    expect(strip.high).toBeCloseTo(100 * deviation, 9);
    const [off] = drawnAs(measuredDifference(beside, 'si'), 'forecast less measured') as { y: number }[];
    expect(off.y).toBeCloseTo(100 * ((600 * 1.3558179) / 303 - 1), 6);
  });
});
