/** Which checks still mean something while other fields of the file are known to be wrong. */

import type { Problem, ProblemCode } from '../../combination/problem.ts';
import { SIDES } from '../../combination/sides.ts';
import type { CombinationDocument } from '../combinationDocument.ts';
import { editDocument } from '../editDocument.ts';
import { areNested } from '../fields/isWithin.ts';
import type { FieldPath } from '../schema/fieldPath.ts';

/** A field, or a field of both sides with `SIDE` in place of the side. */
type Seen = FieldPath | (FieldPath extends infer Path ? Sided<Path> : never);
type Sided<Path> = Path extends `${infer Section}.intake.${infer Name}` ? `${Section}.SIDE.${Name}` : never;

/** What a valve is, or is estimated from. */
const VALVE_FIELDS: readonly Seen[] = [
  'engine.bore',
  'chamber.shape',
  'heads.valvesPerCylinder',
  'heads.SIDE.valves',
  'heads.SIDE.valve',
];

const FLOW_FIELDS: readonly Seen[] = [
  'engine.bore',
  'chamber.shape',
  'heads.bench.depression',
  'heads.valvesPerCylinder',
  'heads.flow',
  'heads.SIDE.flow',
  'heads.SIDE.flowMultiplier',
  'heads.SIDE.valves',
  'heads.SIDE.valve',
  'heads.SIDE.minimumArea',
  'heads.SIDE.portArea',
  'heads.SIDE.portVolume',
];

/**
 * Fields that a check of the completed combination looks at beyond its own group, by code; `SIDE` stands for the side the
 * problem is of. An estimate in the place of a wrong field must not start a second complaint.
 */
const LOOKS_AT: Readonly<Partial<Record<ProblemCode, readonly Seen[]>>> = {
  'firing-order': ['engine.cylinders', 'engine.layout', 'engine.firingOrder'],
  'firing-intervals': ['engine.cylinders', 'engine.firingIntervals'],
  banks: ['engine.cylinders', 'engine.banks'],
  groups: ['engine.cylinders', 'exhaust.groups'],
  balance: ['engine.cylinders', 'engine.banks', 'engine.layout', 'exhaust.groups', 'exhaust.balance'],
  rod: ['engine.stroke', 'engine.rod'],
  dome: ['engine.bore', 'chamber'],
  'gasket-bore': ['engine.bore', 'chamber.gasketBore'],
  'compression-impossible': ['engine', 'chamber'],
  'compression-disagrees': ['engine', 'chamber'],
  'valves-too-large': [
    'engine.bore',
    'chamber.shape',
    'heads.valvesPerCylinder',
    'heads.intake.valves',
    'heads.intake.valve',
    'heads.exhaust.valves',
    'heads.exhaust.valve',
  ],
  // Of the fields that may be missing only the number of valves is looked for this late.
  missing: ['heads.valvesPerCylinder', 'heads.intake.valves', 'heads.exhaust.valves'],
  lash: ['engine', 'cam', 'valvetrain', 'heads.intake.valve', 'heads.exhaust.valve'],
  'duration-slip': [],
  'lift-slip': ['cam', 'valvetrain', 'heads.SIDE.valve'],
  'primary-slip': ['engine', 'exhaust.primary', 'heads.valvesPerCylinder', 'heads.exhaust'],
  'bore-slip': [
    'engine',
    'heads.valvesPerCylinder',
    'heads.intake',
    'heads.exhaust',
    'exhaust.groups',
    'exhaust.collector',
  ],
  throat: [...VALVE_FIELDS, 'heads.SIDE.throat'],
  stem: [...VALVE_FIELDS, 'heads.SIDE.stem'],
  'vapour-pressure': ['weather'],
  'card-impossible': ['engine', 'cam', 'valvetrain', 'heads.intake.valve', 'heads.exhaust.valve'],
  'flow-above-limit': FLOW_FIELDS,
  'depression-doubtful': FLOW_FIELDS,
};

/** The document with every field that has a problem taken out; of a list, the whole list. */
export function withoutDoubtful(
  document: CombinationDocument,
  problems: readonly Problem[],
): CombinationDocument {
  return problems.reduce((left, { path }) => {
    const names = path.split('.');
    const index = names.findIndex((name) => /^\d+$/u.test(name));
    const field = (index < 0 ? names : names.slice(0, index)).join('.');
    return field === '' ? left : editDocument(left, field, null);
  }, document);
}

/**
 * Whether a problem found in what {@link withoutDoubtful} leaves stands on its own, `earlier` problems aside.
 *
 * A check is trusted where no field of its own group is in doubt (the fields beside the one it names, and theirs), nor any
 * field it is known to look at.
 */
export function isTrusted(problem: Problem, earlier: readonly Problem[]): boolean {
  const group = problem.path.slice(0, Math.max(0, problem.path.lastIndexOf('.')));
  const side = /\.(intake|exhaust)\./u.exec(problem.path)?.[1];
  const sides = side === undefined ? SIDES : [side];
  const listed = LOOKS_AT[problem.code]?.flatMap((path) => sides.map((name) => path.replace('SIDE', name)));
  const seen = listed ?? [group === '' ? problem.path : group];
  return earlier.every((other) => seen.every((path) => !areNested(doubtfulPath(other), path)));
}

/** The field in doubt: of a misspelt one the field that was meant, where that is known. */
function doubtfulPath(problem: Problem): string {
  const { path } = problem;
  if (problem.code !== 'unknown-field' || problem.nearest === null) return path;
  return [...path.split('.').slice(0, -1), problem.nearest].join('.');
}
