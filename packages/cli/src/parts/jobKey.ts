/** What tells one forecast from another: its whole job, in sixteen bytes. */
import { createHash } from 'node:crypto';
import type { StudyJob } from '@valvetide/core';

/** The same on every machine: a job is plain values, and the order of its fields does not count. */
export function jobKey(job: StudyJob): string {
  return createHash('sha256').update(JSON.stringify(job, inKeyOrder)).digest('hex').slice(0, 32);
}

function inKeyOrder(_key: string, value: unknown): unknown {
  if (value === null || typeof value !== 'object' || Array.isArray(value)) return value;
  return Object.fromEntries(Object.entries(value).sort(([a], [b]) => (a < b ? -1 : 1)));
}
