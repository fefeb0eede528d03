import { describe, expect, it } from 'vitest';
import { problemLine } from '../../src/combination/problem.ts';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';
import { rateSaid } from '../../src/dyno/rateSaid.ts';

const ROWS = 'rpm,torque (lb-ft)\n3000,380\n4000,400\n5000,390\n';
const DOWNWARD = 'rpm,torque (lb-ft)\n5000,390\n4000,400\n3000,380\n';

function sheet(text: string): DynoSheet {
  const read = readDynoSheet(`# standard: J607\n${text}`, { name: 'pull.csv' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

const ratesOf = (text: string) => sheet(text).pulls.map(({ rate }) => rate);

function complaints(text: string): string {
  const read = readDynoSheet(`# standard: J607\n${text}`, { name: 'pull.csv' });
  return read.ok ? '' : read.problems.map(problemLine).join('\n');
}

describe('what a line says of the rate of a pull', () => {
  it.each([
    ['Sweep rate: 300 rpm/s', 300],
    ['sweep rate, 300 RPM/Sec', 300],
    ['Test type: sweep, 300 rpm/s', 300],
    ['rate = 600 rpm per second', 600],
    ['355 with headers, 300 rpm a second', 300],
    ['2500-7000 rpm at 450 rpm/s', 450],
    ['1,000 rpm/s', 1000],
    ['12,5 rpm/s', 12.5],
    ['-300 rpm/s', -300],
    ['Test type: step', 0],
    ['Step test, 250 rpm apart', 0],
    ['steady-state', 0],
  ] as const)('%s: %d', (text, rate) => expect(rateSaid(text)).toMatchObject({ rate }));

  it.each([
    'not 600 rpm/s',
    'was 600 rpm/s last week',
    'Barometer: 29.4 inHg',
    'rate: fast',
    'revs to 7000 rpm/ shift light',
    'roller 20 ft/s2',
  ])('%s: nothing', (text) => expect(rateSaid(text)).toBeNull());

  it.each([
    ['Acceleration: 300 rpm/s', 'rising'],
    ['decel 300 rpm/s', 'falling'],
    ['-300 rpm/s', 'falling'],
    ['300 rpm/s', null],
  ] as const)('%s goes %s', (text, way) => expect(rateSaid(text)).toMatchObject({ way }));

  it.each([
    ['Inertia corrected', true],
    ['Inertia correction: on', true],
    ['sweep 300 rpm/s, corrected for inertia', true],
    ['inertia correction: off', false],
    ['sweep 300 rpm/s, not corrected for inertia', false],
    ['uncorrected for inertia', false],
    ['Inertia: 0.28 kg m2', null],
  ] as const)('%s: corrected %s', (text, corrected) => expect(rateSaid(text)).toMatchObject({ corrected }));
});

describe('the rate of a sheet', () => {
  it('is that of every pull below it, or the own one of a pull, and nothing where nothing says it', () => {
    expect(ratesOf(ROWS)).toEqual([undefined]);
    expect(ratesOf(`# sweep rate: 300 rpm/s\n${ROWS}\n${ROWS}`)).toEqual([300, 300]);
    expect(ratesOf(`# sweep rate: 300 rpm/s\n${ROWS}\n# sweep rate: 600 rpm/s\n${ROWS}`)).toEqual([300, 600]);
    expect(ratesOf(`# test type: step\n${ROWS}`)).toEqual([0]);
  });

  it('is not the title, and leaves the other words of its line to whom they belong', () => {
    expect(sheet(`# Sweep rate: 300 rpm/s\n# Tern Street six\n${ROWS}`).title).toBe('Tern Street six');
    expect(sheet(`# Tern Street six, 300 rpm/s\n${ROWS}`).title).toBe('Tern Street six, 300 rpm/s');
    const read = readDynoSheet(`SAE J1349, 300 rpm/s\n${ROWS}`, { name: 'pull.csv' });
    expect(read.ok && [read.value.standard, read.value.pulls[0].rate]).toEqual(['J1349', 300]);
  });

  it('counts for nothing where the dyno has corrected for inertia, which is no correction standard', () => {
    const read = sheet(`# sweep rate: 300 rpm/s\n# inertia correction: on\n${ROWS}`);
    expect([read.standard, read.pulls[0].rate]).toEqual(['J607', 0]);
    expect(read.notes.join()).toContain(
      'corrected for inertia by its dyno: nothing is added for its 300 rpm/s',
    );
    expect(ratesOf(`# sweep rate: 300 rpm/s\n# inertia correction: off\n${ROWS}`)).toEqual([300]);
  });

  it('is below 0 where speed falls: by its sign, by a word, or by rows that run downward', () => {
    expect(ratesOf(`# rate: -300 rpm/s\n${ROWS}`)).toEqual([-300]);
    expect(ratesOf(`# falling, 300 rpm/s\n${ROWS}`)).toEqual([-300]);
    const downward = sheet(`# sweep rate: 300 rpm/s\n${DOWNWARD}`);
    expect(downward.pulls[0].rate).toBe(-300);
    expect(downward.notes.join()).toContain('its 300 rpm/s is taken as falling, as its rows do');
    const listed = sheet(`# rising by 300 rpm/s\n${DOWNWARD}`);
    expect(listed.pulls[0].rate).toBe(300);
    expect(listed.notes.join()).not.toContain('taken as falling');
  });

  it('is said to change nothing at the wheels', () => {
    const { notes } = sheet(`# figures at the rear wheel\n# sweep rate: 300 rpm/s\n${ROWS}`);
    expect(notes.join()).toContain('nothing is added for it: at the wheels');
  });

  it.each([
    ['# sweep rate: 30000 rpm/s', 'a rate of its pull that no dyno has', 'write it like 300 rpm/s'],
    ['# sweep rate: 300', 'the rate of its pull without a unit', 'write it like 300 rpm/s'],
    ['# sweep rate: 300 rpm/s or 600 rpm/s', 'gives two rates for one pull', 'keep one'],
    ['# sweep rate: 300 rpm/s\n# 600 rpm/s', 'gives two rates for one pull', 'keep one'],
  ])('is asked about where it can not be: %s', (line, message, hint) => {
    expect(complaints(`${line}\n${ROWS}`)).toContain(message);
    expect(complaints(`${line}\n${ROWS}`)).toContain(hint);
  });
});
