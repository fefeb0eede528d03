import { describe, expect, it } from 'vitest';
import { EXIT } from '../src/exitCodes.ts';
import { main } from '../src/main.ts';
import { POINT_KEYS } from '../src/render/json.ts';
import { world } from './fakeIo.ts';

/** The starter file as `init` writes it. */
async function starter(): Promise<string> {
  const w = world();
  expect(await main(['init'], w.io)).toBe(EXIT.ok);
  return w.out();
}

describe('the starter file of valvetide init', () => {
  it('reads without a problem or a warning', async () => {
    const w = world({ files: { 'engine.yaml': await starter() } });
    expect(await main(['inspect', 'engine.yaml', '--json'], w.io)).toBe(EXIT.ok);
    expect(w.err()).toBe('');
    expect(JSON.parse(w.out())).toMatchObject({ schemaVersion: 1, combination: 'My engine', warnings: [] });
  });

  it('takes any name, quoted as YAML needs it', async () => {
    for (const name of ['Spring: "build" #2', "it's", '- [x]', '{y}', 'a\u001b[31mb']) {
      const w = world();
      await main(['init', '--', name], w.io);
      const read = world({ stdin: w.out() });
      expect(await main(['inspect', '-', '--json'], read.io), name).toBe(EXIT.ok);
      expect(JSON.parse(read.out()).combination).toBe(name.replace('\u001b', '\\u001b'));
    }
  });

  it('forecasts to JSON with every key of every point, settled numbers only', async () => {
    const w = world({ files: { 'engine.yaml': await starter() } });
    expect(
      await main(
        ['forecast', 'engine.yaml', '--quick', '--rpm', '3500,5000', '--workers', '1', '--json'],
        w.io,
      ),
    ).toBe(EXIT.ok);
    const curve = JSON.parse(w.out());
    expect(curve).toMatchObject({
      schemaVersion: 1,
      program: { name: 'valvetide' },
      combination: 'My engine',
      fidelity: 'representative',
      correction: { standard: 'J607' },
    });
    expect(curve.points.map((point: { rpm: number }) => point.rpm)).toEqual([3500, 5000]);
    // What only a lost point has, and what only a mean over cycles that differ.
    const others = ['code', 'reason', 'scatterPct'];
    for (const point of curve.points)
      expect(Object.keys(point)).toEqual(POINT_KEYS.filter((key) => !others.includes(key)));
    expect(curve.assumed.length).toBeGreaterThan(5);
    // An engine of this kind makes 1.0 to 1.4 lb-ft per cubic inch at its best (common practice, no source).
    expect(curve.peak.torque.torqueLbFt / 355).toBeGreaterThan(0.9);
    expect(curve.peak.torque.torqueLbFt / 355).toBeLessThan(1.4);
  });

  it('keeps hp = lb-ft x rpm / 5252 and kW = Nm x rpm / 9549 in the forecast', async () => {
    const w = world({ files: { 'engine.yaml': await starter() } });
    await main(['forecast', 'engine.yaml', '--quick', '--rpm', '4000', '--json'], w.io);
    const [point] = JSON.parse(w.out()).points;
    expect(point.powerHp).toBeCloseTo((point.torqueLbFt * 4000) / 5252.113, 2);
    expect(point.powerKw).toBeCloseTo((point.torqueNm * 4000) / 9549.297, 2);
    expect(point.torqueNm / point.torqueLbFt).toBeCloseTo(1.3558179, 5);
  });
});

describe('a bad combination file', () => {
  const bad = [
    'engine:',
    '  bore: 4.030', // no unit
    '  stroke: 3.480 cfm', // wrong unit
    '  cylinders: 8',
    '  rodd: 5.700 in', // misspelt
    'chamber: { compression: 45 }', // impossible
    'heads: { valvesPerCylinder: 2, flow: none.csv }', // sheet missing
  ].join('\n');

  it('gets one line for each slip, all at once, with file, line and field, and nothing is written', async () => {
    for (const command of ['forecast', 'inspect']) {
      const w = world({ files: { 'bad.yaml': bad } });
      expect(await main([command, 'bad.yaml', '-o', 'out'], w.io)).toBe(EXIT.input);
      expect(w.out()).toBe('');
      expect([...w.files.keys()]).toEqual(['bad.yaml']);
      const starts = w
        .err()
        .trimEnd()
        .split('\n')
        .map((line) => line.split(' ').slice(0, 2).join(' '));
      expect(starts).toEqual([
        'bad.yaml:2:3 engine.bore',
        'bad.yaml:3:3 engine.stroke',
        'bad.yaml:5:3 engine.rodd',
        'bad.yaml:6:12 chamber.compression',
        'bad.yaml:7:32 heads.flow',
      ]);
    }
  });
});

describe('valvetide schema', () => {
  it('prints a draft-07 schema that describes the sections of the starter file', async () => {
    const w = world();
    expect(await main(['schema'], w.io)).toBe(EXIT.ok);
    const schema = JSON.parse(w.out());
    expect(schema.$schema).toContain('draft-07');
    const sections = (await starter()).match(/^\w+(?=:)/gm) ?? [];
    expect(sections.length).toBeGreaterThan(8);
    expect(Object.keys(schema.properties)).toEqual(expect.arrayContaining(sections));
  });
});
