/** Options that keep forecasts, and share them among machines. */
import { misuse } from '../commandFailure.ts';
import type { Flags, Invocation } from '../commandSpec.ts';
import type { Shard } from '../parts/keptRun.ts';
import { PartStore } from '../parts/partStore.ts';
import { refuse } from './readFlags.ts';

/** `--shard 2/8`, counted from 1; null where not asked for. */
export function shardOf(flags: Flags): Shard | null {
  const text = flags.text('shard');
  if (text === undefined) return null;
  const parts = /^(\d{1,6})\/(\d{1,6})$/.exec(text);
  const [index, count] = [Number(parts?.[1]), Number(parts?.[2])];
  if (!(index >= 1 && index <= count))
    throw refuse('shard', flags, 'write which share of how many, such as 2/8');
  if (flags.text('journal') !== undefined)
    throw misuse('--shard keeps its forecasts in the file of -o: leave --journal out');
  if ((flags.text('output') ?? '-') === '-') throw misuse('--shard needs -o FILE for its forecasts');
  return { index: index - 1, count };
}

/** Whether the forecasts are shared or kept, so that nobody waits for all of them at once. */
export function isShared(flags: Flags): boolean {
  return flags.text('queue') !== undefined || isKept(flags);
}

function isKept(flags: Flags): boolean {
  return (
    flags.text('shard') !== undefined ||
    flags.text('journal') !== undefined ||
    flags.texts('parts').length > 0
  );
}

/** Forecasts that were done before, and where new ones are kept; null where neither is asked for. */
export function storeOf({ flags, io }: Invocation, shard: Shard | null): PartStore | null {
  if (!isKept(flags)) return null;
  const journal = shard === null ? flags.text('journal') : flags.text('output');
  return new PartStore(io, flags.texts('parts'), journal ?? null);
}
