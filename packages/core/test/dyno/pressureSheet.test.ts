import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { type PressureSheet, readPressureSheet } from '../../src/dyno/pressureSheet.ts';

const ABOVE = [
  '# speed: 5500 rpm',
  '# cylinder: 2',
  '# zero: firing top centre',
  '# pressures: absolute',
  '# intake from valve: 100 mm',
  '# exhaust from valve: 12 in',
];
/** A reading every 10 deg, `value` of its angle. */
const rows = (value: (angle: number) => number | string, to = 720): string =>
  Array.from({ length: to / 10 }, (_, i) => `${10 * i},${value(10 * i)}`).join('\n');

function sheet(header: string, body: string, above: readonly string[] = ABOVE): PressureSheet {
  const read = readPressureSheet([...above, header, body].join('\n'), { name: 'p.csv' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function lines(text: string): readonly string[] {
  const read = readPressureSheet(text, { name: 'p.csv' });
  return read.ok ? [] : read.problems.map(problemLine);
}

const without = (key: string): readonly string[] => ABOVE.filter((line) => !line.includes(key));
const with_ = (...more: readonly string[]): readonly string[] => [...ABOVE, ...more];

describe('a sheet of pressures', () => {
  it('is read with its speed, cylinder, place and angles from firing top centre', () => {
    const { rpm, cylinder, traces, notes } = sheet(
      'crank deg,exhaust kPa',
      rows((angle) => 100 + angle / 100),
    );
    expect([rpm, cylinder, notes]).toEqual([5500, 2, []]);
    const [{ place, fromValveM, angleDeg, pressurePa, reference }] = traces;
    expect([place, reference]).toEqual(['exhaust', 'absolute']);
    expect(fromValveM).toBeCloseTo(0.3048, 12);
    expect([angleDeg[0], angleDeg[71]]).toEqual([-360, 350]);
    // 0 deg stands in the middle, 360 deg first.
    expect(pressurePa[0]).toBeCloseTo(103_600, 6);
    expect(pressurePa[36]).toBeCloseTo(100_000, 6);
  });

  it.each([
    ['exhaust kPa', 150, 150e3],
    ['exhaust bar', 1.5, 150e3],
    ['exhaust MPa', 0.15, 150e3],
    ['exhaust mbar', 1500, 150e3],
    ['exhaust (psi)', 20, 137_895.15],
    ['exhaust psia', 20, 137_895.15],
  ])('knows the unit of %s', (header, written, pascal) => {
    const [{ pressurePa }] = sheet(
      `crank deg,${header}`,
      rows(() => written),
    ).traces;
    expect(pressurePa[5]).toBeCloseTo(pascal, 1);
  });

  it('holds several sensors, and gauges that say so by their unit', () => {
    const body = Array.from({ length: 72 }, (_, i) => `${10 * i};${97.5};${3}`).join('\n');
    const { traces, barometerPa } = sheet(
      'crank deg;intake kPa;exhaust psig',
      body,
      with_('# barometer: 990 hPa'),
    );
    expect(traces.map(({ place, reference }) => [place, reference])).toEqual([
      ['intake', 'absolute'],
      ['exhaust', 'gauge'],
    ]);
    expect(traces[1].pressurePa[0]).toBeCloseTo(20_684.27, 1);
    expect(barometerPa).toBeCloseTo(99e3, 6);
  });

  it('counts from the other top centre, or in cam degrees, where it says so', () => {
    const other = [...without('zero'), '# zero: gas-exchange TDC'];
    const [{ angleDeg, pressurePa }] = sheet(
      'crank deg,exhaust kPa',
      rows((a) => 100 + a / 100),
      other,
    ).traces;
    expect(angleDeg[0]).toBe(-360);
    expect(pressurePa[0]).toBeCloseTo(100e3, 6);
    const cam = Array.from({ length: 72 }, (_, i) => `${5 * i},${100 + i}`).join('\n');
    expect(sheet('cam deg,exhaust kPa', cam).traces[0].angleDeg[71]).toBe(350);
  });

  it('raises what it says an offset of, and sets a sensor without a level', () => {
    const [raised] = sheet(
      'crank deg,intake kPa',
      rows(() => 90),
      with_('# offset: 0.02 bar'),
    ).traces;
    expect(raised.pressurePa[0]).toBeCloseTo(92e3, 6);
    const above = with_('# pegged: 1.05 bar at -180 deg');
    const [pegged] = sheet(
      'crank deg,cylinder bar',
      rows((a) => 5 + (a % 360) / 1000),
      above,
    ).traces;
    expect(pegged.pressurePa[pegged.angleDeg.indexOf(-180)]).toBeCloseTo(1.05e5, 6);
    expect(pegged.pressurePa[pegged.angleDeg.indexOf(170)]).toBeCloseTo(1.04e5, 6);
  });

  it.each([
    ['speed', "does not say at which speed (write '# speed: 5500 rpm' above)"],
    ['zero', 'does not say which top centre its angles count from'],
    ['pressures', 'does not say what its pressures count from'],
    ['exhaust from', 'does not say where the exhaust sensor sat'],
  ])('asks for %s', (key, part) => {
    const [line] = lines([...without(key), 'crank deg,exhaust kPa', rows(() => 100)].join('\n'));
    expect(line).toContain(part);
  });

  it('says in code what it asks for', () => {
    const read = readPressureSheet(
      [...without('zero'), 'crank deg,exhaust kPa', rows(() => 100)].join('\n'),
      { name: 'p.csv' },
    );
    expect(read.ok ? '' : read.problems[0].code).toBe('pressure-unclear');
  });

  it.each([
    ['# zero: tdc', ["says zero: 'tdc' (write firing top centre or gas-exchange top centre)"]],
    ['# sped: 5500 rpm', ["has a line 'sped' (did you mean '# speed: '?)"]],
    ['# speed: 5500', ["says speed, which needs a unit: '5500' could be anything"]],
    ['# pegged: 1 bar', ["says pegged: '1 bar' (write it like 1.02 bar at 180 deg)"]],
    ['# cylinder: left', ["says cylinder: 'left' (write its number, from 1)"]],
  ])('answers %s', (line, parts) => {
    const key = /# (zero|cylinder|spe?e?d)/u.exec(line)?.[1].replace('sped', 'speed') ?? 'pegged';
    const got = lines([...without(key), line, 'crank deg,exhaust kPa', rows(() => 100)].join('\n'));
    for (const part of parts) expect(got.join('\n')).toContain(part);
  });

  it.each([
    ['crank deg,exhaust', rows(() => 100), 'without a unit of pressure'],
    ['crank deg,lambda', rows(() => 1), 'has no column of pressures'],
    ['time s,exhaust kPa', rows(() => 100), 'has no angle column'],
    ['crank deg,exhaust kPa', '0,100\n10,100\n5,100', 'does not rise'],
    ['crank deg,exhaust kPa', rows(() => 100, 1000), 'spans more than 720 crank deg'],
    ['crank deg,exhaust kPa', rows(() => 100, 200), 'has 20 pressures'],
    ['crank deg,exhaust bar', rows(() => 1500), 'has the impossible pressure'],
    ['crank deg,exhaust kPa', rows(() => -20), 'has the impossible pressure'],
    ['crank deg,exhaust kPa', rows((angle) => (angle === 50 ? 'x' : 100)), 'is no number'],
  ])('refuses %s', (header, body, part) => {
    expect(lines([...ABOVE, header, body].join('\n')).join('\n')).toContain(part);
  });
});

describe('a sheet of pressures that lacks something', () => {
  const body = rows(() => 100);

  it('names no cylinder: it is the first, and the sheet is told so', () => {
    const { cylinder, notes } = sheet('crank deg,exhaust kPa', body, without('cylinder'));
    expect([cylinder, notes]).toEqual([
      1,
      ["taken as cylinder 1, since the sheet names none: '# cylinder: 1' does"],
    ]);
  });

  it('leaves rows blank: they are no points of a trace', () => {
    const some = rows((angle) => (angle === 100 ? '' : 100));
    const { traces } = sheet('crank deg,exhaust kPa', `${some}\n,101`);
    expect(traces[0].angleDeg).toHaveLength(71);
  });

  it.each([
    [
      'says a thing twice',
      with_('# speed: 5000 rpm'),
      'crank deg,exhaust kPa',
      'says speed twice (keep one of the two)',
    ],
    [
      'has two of a place',
      ABOVE,
      'crank deg,exhaust kPa,primary kPa',
      'has two columns of the exhaust (one sheet a sensor, then)',
    ],
    [
      'counts from neither top centre',
      [...without('zero'), '# zero: bottom'],
      'crank deg,exhaust kPa',
      "says zero: 'bottom' (write firing top centre or gas-exchange top centre)",
    ],
  ])('%s: it is refused', (_what, above, header, says) => {
    const text = [
      ...above,
      header,
      rows((angle) => (header.includes('primary') ? `${angle},${angle}` : 100)),
    ].join('\n');
    expect(lines(text).join('\n')).toContain(says);
  });

  it('has an angle of no cycle: it is refused with its line', () => {
    const text = [...ABOVE, 'crank deg,exhaust kPa', '0,100', '9000,100'].join('\n');
    expect(lines(text)[0]).toMatch(/^p\.csv:9 has the impossible angle 9000/u);
  });
});
