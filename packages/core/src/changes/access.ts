/** How far an engine has to come apart for a change. */
import type { Change } from './change.ts';

/** From nothing to everything. */
export const ACCESS = [
  'settings',
  'on the stand',
  'manifold off',
  'cam out',
  'heads off',
  'engine apart',
] as const;
export type Access = (typeof ACCESS)[number];

/** Deepest first match wins; a path stands for everything below it. Common practice, no source. */
const REACH: readonly (readonly [path: string, access: Access])[] = [
  ['engine.ratedSpeed', 'settings'],
  ['engine', 'engine apart'],
  ['friction.valvetrain', 'cam out'],
  ['friction.accessories', 'on the stand'],
  ['friction', 'engine apart'],
  ['chamber', 'heads off'],
  ['heads', 'heads off'],
  ['heat', 'heads off'],
  // A degree bushing or an adjustable gear.
  ['cam.advance', 'manifold off'],
  ['cam.intake.centreline', 'manifold off'],
  ['cam.exhaust.centreline', 'manifold off'],
  ['cam', 'cam out'],
  ['valvetrain.type', 'cam out'],
  ['valvetrain', 'on the stand'],
  ['induction.carburetor', 'on the stand'],
  ['induction.throttle', 'on the stand'],
  ['induction.airCleaner', 'on the stand'],
  ['induction', 'manifold off'],
  ['exhaust', 'on the stand'],
];

/** The deepest any of the change's edits goes. */
export function accessOf({ edits }: Pick<Change, 'edits'>): Access {
  const depths = edits.map(({ path }) => {
    const rule = REACH.find(([start]) => path === start || path.startsWith(`${start}.`));
    return ACCESS.indexOf(rule?.[1] ?? 'settings');
  });
  return ACCESS[Math.max(0, ...depths)];
}

/** Whether the engine leaves the stand, or comes apart on it. */
export function isTearDown(access: Access): boolean {
  return ACCESS.indexOf(access) >= ACCESS.indexOf('cam out');
}
