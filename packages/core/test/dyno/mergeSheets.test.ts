import { describe, expect, it } from 'vitest';
import { type DynoSheet, readDynoSheet } from '../../src/dyno/dynoSheet.ts';
import { mergeSheets } from '../../src/dyno/mergeSheets.ts';

function sheet(name: string, title: string): DynoSheet {
  const read = readDynoSheet(`# ${title}\n# standard: J607\nrpm,torque Nm\n3000,100\n4000,104\n`, { name });
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

describe('mergeSheets(sheets)', () => {
  it('calls a pull by its sheet and its name', () => {
    const { name, pulls } = mergeSheets([sheet('monday', 'first day'), sheet('tuesday', 'second day')]);
    expect(name).toBe('monday + tuesday');
    expect(new Set(pulls.map((pull) => pull.name)).size).toBe(2);
    expect(pulls.every((pull, i) => pull.name.startsWith(['monday ', 'tuesday '][i]))).toBe(true);
  });

  it('has figures at the wheels where one of its sheets has, whichever comes first', () => {
    const [engine, wheels] = [sheet('a', 'engine dyno'), sheet('b', 'chassis dyno')];
    expect(mergeSheets([engine, wheels]).atWheels).toBe(true);
    expect(mergeSheets([wheels, engine]).atWheels).toBe(true);
    expect(mergeSheets([engine, engine]).atWheels).toBeUndefined();
  });
});
