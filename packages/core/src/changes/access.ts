/** How far an engine has to come apart for a change. */
import { ACCESS, type Access } from '../reading/fields/access.ts';
import { inherited } from '../reading/fields/fieldTable.ts';
import type { Change } from './change.ts';

/** The deepest any of the change's edits goes. */
export function accessOf({ edits }: Pick<Change, 'edits'>): Access {
  const depths = edits.map(({ path }) => ACCESS.indexOf(inherited(path, 'access') ?? 'settings'));
  return ACCESS[Math.max(0, ...depths)];
}

/** Whether the engine leaves the stand, or comes apart on it. */
export function isTearDown(access: Access): boolean {
  return ACCESS.indexOf(access) >= ACCESS.indexOf('cam out');
}
