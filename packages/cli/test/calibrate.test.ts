import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { CORE } from '../src/core.ts';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { type World, world } from './fakeIo.ts';
import { measuringCore } from './measuredRunner.ts';
import { inventedRunner } from './studies.ts';

const example = (name: string): string =>
  readFileSync(new URL(`../../../examples/hill-climb/${name}`, import.meta.url), 'utf8');

function hillClimb(columns = 100): World {
  const names = ['engine.yaml', 'flow.csv', 'pulls.csv', 'pulls-mufflers.csv'];
  return world({
    files: Object.fromEntries(names.map((name) => [`shop/${name}`, example(name)])),
    columns,
  });
}

/** Mean of the torque column of a sheet, all pulls together. */
function meanTorque(name: string): number {
  const torque = example(name)
    .split('\n')
    .filter((line) => /^\d/.test(line))
    .map((line) => Number(line.split(',')[1]));
  return torque.reduce((sum, value) => sum + value, 0) / torque.length;
}

describe('valvetide calibrate', () => {
  it('writes a file that keeps its remarks, holds the calibration and still finds its sheets', async () => {
    const w = hillClimb();
    const words = ['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv', '-o', 'fitted/engine.yaml'];
    expect(await main(words, w.io, measuringCore(CORE)), w.err()).toBe(EXIT.ok);
    const written = w.files.get('fitted/engine.yaml') ?? '';
    expect(written).toContain('# measured with the valve pockets taken off');
    expect(parse(written).calibration.knobs).toHaveLength(5);
    expect(parse(written).heads.flow).toBe('../shop/flow.csv');
    expect(w.out()).toContain('Written to fitted/engine.yaml');
    const again = world({ files: Object.fromEntries(w.files), columns: 100 });
    expect(await main(['inspect', 'fitted/engine.yaml'], again.io), again.err()).toBe(EXIT.ok);
  });

  it('gives measured, before and after by speed as CSV, errors in percent', async () => {
    const w = hillClimb();
    const words = ['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv', '--csv'];
    expect(await main(words, w.io, measuringCore(CORE)), w.err()).toBe(EXIT.ok);
    const [head, ...rows] = w.out().trim().split('\r\n');
    expect(head).toContain(
      'combination,figure,rpm,measuredNm,beforeNm,afterNm,allowedNm,beforeErrorPct,afterErrorPct,',
    );
    expect(rows).toHaveLength(9);
    for (const row of rows) {
      const [combination, figure, , measured, , after, , , off] = row.split(',');
      expect([combination, figure]).toEqual(['Tern Street six', 'torque']);
      expect(Number(off)).toBeCloseTo(100 * (Number(after) / Number(measured) - 1), 9);
    }
  });

  it.each([60, 100])(
    'draws the measured dots over both forecasts in %i columns, without colour',
    async (columns) => {
      const w = hillClimb(columns);
      expect(
        await main(['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv'], w.io, measuringCore(CORE)),
      ).toBe(EXIT.ok);
      const lines = w.out().split('\n');
      expect(w.out()).toContain('o measured, b forecast before the fit');
      const picture = lines.filter((line) => /^\s*[\d.]* [|+] /.test(line));
      expect(picture.join('').match(/o/g)?.length).toBe(9);
      expect(Math.max(...lines.map((line) => line.length))).toBeLessThanOrEqual(columns);
      expect(w.out()).not.toContain('\u001b');
    },
  );

  it('writes nothing without -o, and says so', async () => {
    const w = hillClimb();
    expect(
      await main(['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv'], w.io, measuringCore(CORE)),
    ).toBe(EXIT.ok);
    expect(w.files.size).toBe(4);
    expect(w.out()).toContain('Nothing written');
  });

  it('fits peak figures, which must name their standard', async () => {
    const peaks = [
      'calibrate',
      'shop/engine.yaml',
      '--peak-torque',
      '212 lb-ft @ 4750',
      '--peak-power',
      '237 hp @ 7000',
    ];
    const without = hillClimb();
    expect(await main(peaks, without.io, measuringCore(CORE))).toBe(EXIT.usage);
    expect(without.err()).toContain('peak figures need --standard');
    const w = hillClimb();
    expect(await main([...peaks, '--standard', 'J607', '--json'], w.io, measuringCore(CORE)), w.err()).toBe(
      EXIT.ok,
    );
    expect(JSON.parse(w.out())).toMatchObject({ outcome: 'fitted', sheets: ['peak figures'] });
    const text = hillClimb();
    expect(await main([...peaks, '--standard', 'J607'], text.io, measuringCore(CORE))).toBe(EXIT.ok);
    expect(text.out().replace(/\s+/g, ' ')).toContain(
      'peak figures are taken as right to 1.00 % (assumed), their speeds to 200 rpm',
    );
    expect(text.out()).toContain('Peaks alone say little about a curve');
    // Nothing to draw between two peaks.
    expect(text.out()).not.toContain('o measured');
  });

  it('ends with exit code 3, a culprit and no file where the sheets disagree', async () => {
    const w = hillClimb();
    const half = { ...CORE, openRunner: () => inventedRunner(() => 400) };
    const words = ['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv', '-o', 'fitted.yaml'];
    expect(await main(words, w.io, half)).toBe(EXIT.input);
    expect(w.files.has('fitted.yaml')).toBe(false);
    expect(w.out()).toContain('Check first:');
  });

  it('writes a disagreeing fit where --accept asks for it, with the doubt in the file', async () => {
    const w = hillClimb();
    const half = { ...CORE, openRunner: () => inventedRunner(() => 400) };
    const words = [
      'calibrate',
      'shop/engine.yaml',
      '--pull',
      'shop/pulls.csv',
      '-o',
      'shop/fitted.yaml',
      '--accept',
    ];
    expect(await main(words, w.io, half), w.err()).toBe(EXIT.ok);
    expect(parse(w.files.get('shop/fitted.yaml') ?? '').calibration.doubt).toContain('The sheets disagree');
    expect(w.out().replace(/\s+/g, ' ')).toContain('accepted all the same');
    const again = world({ files: Object.fromEntries(w.files), columns: 100 });
    expect(await main(['inspect', 'shop/fitted.yaml'], again.io), again.err()).toBe(EXIT.ok);
    expect((again.out() + again.err()).replace(/\s+/g, ' ')).toContain('accepted against a doubt');
  });

  it('reports an interrupt', async () => {
    const w = hillClimb();
    const never = { ...CORE, openRunner: () => inventedRunner(() => 400, 0) };
    expect(await main(['calibrate', 'shop/engine.yaml', '--pull', 'shop/pulls.csv'], w.io, never)).toBe(
      EXIT.interrupted,
    );
  });

  it.each([
    ['--knobs', 'flow,cam', 'name one or more of flow, metering, heat'],
    ['--peak-torque', '377', 'write it like "377 lb-ft @ 3800"'],
    ['--pull', 'shop/none.csv', "can't be read"],
  ])('refuses %s %s', async (option, value, line) => {
    const w = hillClimb();
    const code = await main(
      [
        'calibrate',
        'shop/engine.yaml',
        option,
        value,
        ...(option === '--knobs' ? ['--pull', 'shop/pulls.csv'] : []),
      ],
      w.io,
    );
    expect([EXIT.usage, EXIT.file]).toContain(code);
    expect(w.err()).toContain(line);
  });
});

describe('valvetide backtest', () => {
  const sheets = ['--before', 'shop/pulls.csv', '--after', 'shop/pulls-mufflers.csv'];

  it('sets forecast against measured gain', async () => {
    const w = hillClimb();
    const words = [
      'backtest',
      'shop/engine.yaml',
      '--change',
      'exhaust.muffler.backPressure=1.3 psi',
      ...sheets,
      '--json',
    ];
    expect(await main(words, w.io, measuringCore(CORE)), w.err()).toBe(EXIT.ok);
    const { gain, outcome, changes } = JSON.parse(w.out());
    expect([outcome, changes]).toEqual(['forecast', ['exhaust.muffler.backPressure=1.3 psi']]);
    // The stand-in forecasts no gain but that of another day's air.
    expect(Math.abs(gain.forecast)).toBeLessThan(0.01);
    const shown = meanTorque('pulls-mufflers.csv') / meanTorque('pulls.csv') - 1;
    expect(shown).toBeGreaterThan(0.02);
    expect(gain.measured).toBeCloseTo(shown, 2);
  });

  it('gives both sides and both gains by speed as CSV, and draws them', async () => {
    const words = [
      'backtest',
      'shop/engine.yaml',
      '--change',
      'exhaust.muffler.backPressure=1.3 psi',
      ...sheets,
    ];
    const table = hillClimb();
    expect(await main([...words, '--csv'], table.io, measuringCore(CORE)), table.err()).toBe(EXIT.ok);
    const [head, first] = table.out().trim().split('\r\n');
    expect(head).toContain('rpm,beforeMeasuredNm,beforeForecastNm,afterMeasuredNm,afterForecastNm');
    const [, , before, , after, , gain] = first.split(',').map(Number);
    expect(gain).toBeCloseTo(100 * (after / before - 1), 6);
    const text = hillClimb();
    expect(await main(words, text.io, measuringCore(CORE))).toBe(EXIT.ok);
    expect(text.out()).toContain('after it: x measured, a forecast');
    const both = hillClimb();
    expect(await main([...words, '--csv', '--json'], both.io)).toBe(EXIT.usage);
  });

  it('names a misspelt field before any forecast', async () => {
    const w = hillClimb();
    expect(
      await main(
        ['backtest', 'shop/engine.yaml', '--change', 'exhaust.muffler.backPresure=1.3 psi', ...sheets],
        w.io,
      ),
    ).toBe(EXIT.input);
    expect(w.err()).toContain('exhaust.muffler.backPressure');
  });

  it('needs a change and both sheets', async () => {
    const w = hillClimb();
    expect(await main(['backtest', 'shop/engine.yaml', ...sheets], w.io)).toBe(EXIT.usage);
    expect(
      await main(['backtest', 'shop/engine.yaml', '--change', 'a=1', '--before', 'shop/pulls.csv'], w.io),
    ).toBe(EXIT.usage);
    expect(w.err()).toContain('backtest needs --after SHEET');
  });
});

describe('valvetide pulls', () => {
  it('takes sheets of one state as one, and to another standard', async () => {
    const w = hillClimb();
    const words = ['pulls', 'shop/pulls.csv', 'shop/pulls.csv', '--together', '--to', 'J1349', '--json'];
    expect(await main(words, w.io), w.err()).toBe(EXIT.ok);
    const { sheets, comparisons } = JSON.parse(w.out());
    expect([sheets[0].pulls.length, sheets[0].standard, comparisons]).toEqual([6, 'J1349', []]);
  });

  it('gives a line of CSV a pull and speed, and the mean', async () => {
    const w = hillClimb();
    expect(await main(['pulls', 'shop/pulls.csv', '--csv'], w.io)).toBe(EXIT.ok);
    expect(w.out().trim().split('\r\n')).toHaveLength(1 + 4 * 13);
  });
});
