/** The air of the day as shops write it: read, or said to be unread. */
import { describe, expect, it } from 'vitest';
import { airSaid } from '../../src/dyno/airSaid.ts';
import { readDynoSheet } from '../../src/dyno/dynoSheet.ts';

const INHG = 3.386389;
const degF = (f: number): number => (f + 459.67) / 1.8;

describe('a line of air', () => {
  it.each([
    [
      'Baro 29.40, Air 84 F, Vap .53',
      { barometer: 29.4 * INHG, temperature: degF(84), vapourPressure: 0.53 * INHG },
    ],
    ['998 mbar 21 C RH 48 %', { barometer: 99.8, temperature: 294.15, humidity: 0.48 }],
    [
      'Barometer 29.92 inHg  Air Temp 75 °F  Humidity 40%',
      { barometer: 29.92 * INHG, temperature: degF(75), humidity: 0.4 },
    ],
    ['99.1 kPa, 18 degC, 55 % RH', { barometer: 99.1, temperature: 291.15, humidity: 0.55 }],
    [
      'baro: 1002 hPa; temp: 24,5 C; dew point: 11 C',
      { barometer: 100.2, temperature: 297.65, dewPoint: 284.15 },
    ],
    [
      'Vapor pressure 0.45 in hg, barometer 29.1 in hg',
      { vapourPressure: 0.45 * INHG, barometer: 29.1 * INHG },
    ],
    [
      'baro 29.40 air 84 vap .53',
      { barometer: 29.4 * INHG, temperature: degF(84), vapourPressure: 0.53 * INHG },
    ],
    ['1002 hPa, 22 C, 50 % rF', { barometer: 100.2, temperature: 295.15, humidity: 0.5 }],
    ['Wet bulb 68 F, dry bulb 84 F, baro 29.4', { barometer: 29.4 * INHG, temperature: degF(84) }],
    ['Specific humidity 8.2 g/kg, baro 29.4, air 84F', { barometer: 29.4 * INHG, temperature: degF(84) }],
    ['Baro 29.40, air 21', { barometer: 29.4 * INHG }],
    ['Baro 29.40', { barometer: 29.4 * INHG }],
  ])('%s', (line, air) => {
    const said = airSaid(line);
    expect(Object.keys(said ?? {}).sort()).toEqual(Object.keys(air).sort());
    for (const [kind, value] of Object.entries(air))
      expect(said?.[kind as keyof typeof said], kind).toBeCloseTo(value, 3);
  });

  it.each([
    ['Oil temp 210 F, water 180 F'],
    ['Run 3 after lunch'],
    ['540, 1250 cfm carburetor'],
    ['timing 34 deg'],
    ['84 F'],
  ])('is none where nothing of the air is said: %s', (line) => expect(airSaid(line)).toBeNull());
});

const ROWS = 'rpm,torque (lb-ft)\n3000,380\n4000,400\n5000,390\n';

describe('a dyno sheet', () => {
  it('takes its air from one line, before the header or as a remark', () => {
    const read = readDynoSheet(`# standard: J607\nBaro 29.40, Air 84 F, Vap .53\n${ROWS}`, { name: 'x.csv' });
    expect(read.ok && read.value.pulls[0].weather?.pressure).toBeCloseTo(29.4 * INHG * 1000, -1);
    expect(read.ok && read.value.pulls[0].weather?.temperature).toBeCloseTo(degF(84), 6);
    expect(read.ok && read.value.title).toBeNull();
  });

  it('takes air that is said between two pulls for the pull behind it, and the line for no row', () => {
    const text = `# standard: J607\nBarometer: 29.4 inHg\nTemperature: 84 F\n${ROWS}Barometer, 29.0 inHg\nTemperature, 90 F\n3000,381\n4000,401\n5000,391\n`;
    const read = readDynoSheet(text, { name: 'x.csv' });
    const pulls = read.ok ? read.value.pulls : [];
    expect(pulls.map(({ points }) => points.length)).toEqual([3, 3]);
    expect(pulls[1]?.weather?.pressure).toBeCloseTo(29 * INHG * 1000, -1);
  });

  it('names a line that speaks of the air and is not understood', () => {
    const read = readDynoSheet(`# standard: J607\n# humidity was middling, 3 of 5\n${ROWS}`, {
      name: 'x.csv',
    });
    expect(read.ok && read.value.notes.join()).toContain(
      'speaks of the air at line 2 in words that were not understood',
    );
  });

  it.each([
    ['# humidity: 0.4', 'humidity-unclear'],
    ['# standard: J607 (converted from J1349)', 'standard-unclear'],
  ])('asks back where a line can be read in two ways: %s', (line, code) => {
    const standard = line.includes('standard') ? '' : '# standard: J607\n';
    const read = readDynoSheet(`${standard}${line}\n${ROWS}`, { name: 'x.csv' });
    expect(read.ok ? [] : read.problems.map((problem) => problem.code)).toEqual([code]);
  });

  it('takes a pull that falls in large steps for one pull', () => {
    const read = readDynoSheet(
      '# standard: J607\nrpm,torque (lb-ft)\n7000,300\n6000,340\n5000,390\n4000,400\n',
      { name: 'x.csv' },
    );
    expect(read.ok && read.value.pulls.map(({ points }) => points.map(({ rpm }) => rpm))).toEqual([
      [4000, 5000, 6000, 7000],
    ]);
  });

  it('still parts pulls that each rise', () => {
    const read = readDynoSheet(
      '# standard: J607\nrpm,torque (lb-ft)\n4000,400\n6000,340\n4000,401\n6000,341\n',
      { name: 'x.csv' },
    );
    expect(read.ok && read.value.pulls).toHaveLength(2);
  });
});

describe('what a dyno sheet says of the air and is not read', () => {
  const notes = (...lines: readonly string[]): readonly string[] => {
    const read = readDynoSheet(`# standard: J607\n${lines.join('\n')}\n${ROWS}`, { name: 'x.csv' });
    return read.ok ? read.value.notes : read.problems.map(({ message }) => message);
  };
  const unread =
    'speaks of the air at line 2 in words that were not understood: write it like `Barometer: 29.35 inHg`';

  it.each([
    'Wet bulb 68 F, dry bulb 84 F, baro 29.4',
    'Specific humidity 8.2 g/kg, baro 29.4, air 84 F',
    'grains 72, baro 29.4, air 84 F',
    'Atm 29.40 / 84 / 0.53',
    'DA 2300 ft',
  ])('is told: %s', (line) => expect(notes(line)).toContain(unread));

  it('is told where a figure of two that belong together lacks', () =>
    expect(notes('Baro 29.40 air 21')).toEqual([
      'gives the air of the day in part: no air temperature with its unit, so that none of it is used',
    ]));

  it('is nothing where the unit is in two words', () =>
    expect(
      notes('Barometric pressure (in Hg): 29.40', 'Carb air temp (F): 84', 'Vapor pressure (in Hg): 0.53'),
    ).toEqual([]));
});
