import { Ajv } from 'ajv';
import { describe, expect, it } from 'vitest';
import type { Change } from '../../src/changes/change.ts';
import { changesSchema } from '../../src/changes/changesSchema.ts';
import { readChanges } from '../../src/changes/readChanges.ts';
import { problemLine } from '../../src/combination/problem.ts';
import type { Plain } from '../../src/reading/combinationDocument.ts';
import { valueAt } from '../../src/reading/valueAt.ts';

const GOOD = `
changes:
  - name: Carburetor 1250
    set: { induction.carburetor.rating: 1250 cfm }
    cost: 950
    hours: 1
    insteadOf: carburetor
  - name: Ported heads
    set:
      heads:
        flow: flow-big.csv
        intake: { valve: 2.30 in }
    scale: { heads.intake.portArea: 1.05 }
    reversible: false
  - name: Two degrees
    add: { cam.advance: 2 deg }
`;

function good(text: string): readonly Change[] {
  const read = readChanges(text, { file: 'changes.yaml' });
  if (!read.ok) throw new Error(read.problems.map(problemLine).join('\n'));
  return read.value;
}

function problems(text: string): string {
  const read = readChanges(text, { file: 'changes.yaml' });
  return read.ok ? 'none' : read.problems.map(problemLine).join('\n');
}

describe('a changes file', () => {
  it('gives each change with its edits, cost, hours and group', () => {
    const [carburetor, heads, cam] = good(GOOD);
    expect(carburetor).toMatchObject({
      name: 'Carburetor 1250',
      edits: [{ kind: 'set', path: 'induction.carburetor.rating', value: '1250 cfm' }],
      cost: 950,
      hours: 1,
      reversible: true,
      insteadOf: 'carburetor',
    });
    expect(heads).toMatchObject({ cost: null, hours: null, reversible: false, insteadOf: null });
    expect(cam.edits).toEqual([{ kind: 'add', path: 'cam.advance', amount: '2 deg' }]);
  });

  it('takes sections nested in each other for paths, so that a section is not replaced as a whole', () => {
    expect(good(GOOD)[1].edits).toEqual([
      { kind: 'set', path: 'heads.flow', value: 'flow-big.csv' },
      { kind: 'set', path: 'heads.intake.valve', value: '2.30 in' },
      { kind: 'scale', path: 'heads.intake.portArea', factor: 1.05 },
    ]);
  });

  it('remembers where each edit stands', () => {
    expect(good(GOOD)[1].source).toMatchObject({
      file: 'changes.yaml',
      positions: { '': { line: 8 }, 'heads.intake.valve': { line: 12 } },
    });
  });

  it('may be JSON, and keeps lists as values', () => {
    const text = JSON.stringify({
      changes: [
        {
          name: 'groups',
          set: {
            'exhaust.groups': [
              [1, 3, 5, 7],
              [2, 4, 6, 8],
            ],
          },
        },
      ],
    });
    expect(good(text)[0].edits).toEqual([
      {
        kind: 'set',
        path: 'exhaust.groups',
        value: [
          [1, 3, 5, 7],
          [2, 4, 6, 8],
        ],
      },
    ]);
  });
});

describe('what is wrong with a changes file', () => {
  it('is told all at once, each with its line and field', () => {
    const text = `
changes:
  - name: Carburetor
    set: { induction.carburettor.rating: 1250 cfm }
  - name: Carburetor
    scale: { cam.advance: two }
  - name: Nothing
    cost: 20
  - name: Twice
    set: { cam.advance: 2 deg }
    add: { cam: { advance: 2 deg } }
  - name: List
    add: { exhaust.groups: [1] }
`;
    expect(problems(text).split('\n')).toEqual([
      'changes.yaml:4:12 induction.carburettor.rating is not a field of a combination (did you mean induction.carburetor.rating?)',
      "changes.yaml:5:5 changes.1.name is the name of two changes: 'Carburetor'",
      "changes.yaml:6:14 changes.1.scale.cam.advance needs a plain number above 0 to scale by, got 'two'",
      "changes.yaml:7:5 changes.2 'Nothing' changes nothing: it needs set, scale or add",
      'changes.yaml:11:19 changes.3.add.cam.advance is changed twice by one change',
      'changes.yaml:13:12 changes.4.add.exhaust.groups needs an amount to add, such as 2 deg, got a list',
    ]);
  });

  it('names the nearest field where one is misspelt', () => {
    expect(problems('changes: [{ nam: Carburetor, set: { cam.advance: 2 deg } }]')).toBe(
      'changes.yaml:1:13 changes.0.nam is not a field of this file (did you mean name?)',
    );
    expect(problems('changes: [{ name: a, costs: 5, set: { cam.advance: 2 deg } }]')).toContain(
      'did you mean cost?',
    );
    expect(problems('changes: [{ name: a, price: 450, set: { cam.advance: 2 deg } }]')).toContain(
      'changes.0.price is not a field of this file (write cost, a plain number of your money)',
    );
  });

  it.each([
    ['', 'changes.yaml is empty'],
    [
      '- name: a',
      'changes.yaml is not a list of changes (begin with a line changes: and write the list below it)',
    ],
    ['engine: {}', 'engine is not a field of this file'],
    ['changes: []', 'changes.yaml:1:1 changes must have at least 1 entry'],
    ['changes: [{ name: a, cost: -1, set: { cam.advance: 2 deg } }]', 'changes.0.cost is impossible: -1'],
  ])('%j', (text, message) => expect(problems(text)).toContain(message));
});

describe('the JSON Schema of a changes file', () => {
  it('accepts what is read and refuses what is not', () => {
    const validate = new Ajv({ strict: false }).compile(changesSchema());
    expect(validate({ changes: [{ name: 'a', set: { 'cam.advance': '2 deg' }, cost: 5 }] })).toBe(true);
    expect(validate({ changes: [{ nam: 'a' }] })).toBe(false);
    expect(validate({ changes: [] })).toBe(false);
  });

  it('offers the fields of a combination to an editor', () => {
    expect(JSON.stringify(changesSchema())).toContain('"induction.carburetor.rating"');
    // Where values are set, scaled and added to, and nowhere else.
    const change = valueAt(changesSchema() as Plain, 'properties.changes.items.properties') as Record<
      string,
      object
    >;
    const offering = Object.keys(change).filter((name) => Object.hasOwn(change[name], 'properties'));
    expect(offering.sort()).toEqual(['add', 'scale', 'set']);
  });
});
