import { describe, expect, it } from 'vitest';
import { FIELD_ROWS, FIELDS, inherited, isField } from '../../../src/reading/fields/fieldTable.ts';
import { CALIBRATED_FIELDS } from '../../../src/reading/schema/calibratedFields.ts';
import type { FieldPath } from '../../../src/reading/schema/fieldPath.ts';
import { fieldPaths } from '../../../src/reading/schema/fieldPaths.ts';

describe('FIELDS', () => {
  it('has a row for every field of the schema, and no other', () => {
    const schema = fieldPaths().filter((path) => path !== '$schema');
    expect(Object.keys(FIELDS).sort()).toEqual([...schema].sort());
  });

  it('has no field that drops itself or what it lies in', () => {
    for (const [path, { entails = [] }] of FIELD_ROWS)
      for (const { drops = [] } of entails)
        for (const dropped of drops) expect(`${path}.`.startsWith(`${dropped}.`), path).toBe(false);
  });

  it('names an error alike in every field that shows it, so that they move together', () => {
    const errors = FIELD_ROWS.flatMap(([, facts]) => facts.errors ?? []);
    for (const error of errors)
      for (const other of errors.filter(({ name }) => name === error.name))
        expect({ by: other.by, unit: other.unit, size: Math.abs(other.sigma) }).toEqual({
          by: error.by,
          unit: error.unit,
          size: Math.abs(error.sigma),
        });
  });
});

describe('inherited(path, fact)', () => {
  it('is the fact of the field itself before that of its section', () => {
    expect(inherited('cam.advance', 'access')).toBe('manifold off');
    expect(inherited('cam.lifter', 'access')).toBe('cam out');
  });

  it('is that of the list for what stands in it', () =>
    expect(inherited('exhaust.primary.steps.0.after', 'access')).toBe('on the stand'));

  it('is nothing where no section has it, or the path is no field', () => {
    expect(inherited('weather.barometer', 'access')).toBeUndefined();
    expect(inherited('toString', 'access')).toBeUndefined();
  });
});

describe('CALIBRATED_FIELDS', () => {
  it('are fields of the file', () => {
    const paths: readonly FieldPath[] = CALIBRATED_FIELDS;
    expect(paths.filter((path) => !isField(path))).toEqual([]);
  });
});

describe('isField(path)', () => {
  it('knows fields and sections, and no names of every object', () => {
    expect(['cam', 'cam.advance', 'constructor', 'cam.advance.0'].map(isField)).toEqual([
      true,
      true,
      false,
      false,
    ]);
  });
});
