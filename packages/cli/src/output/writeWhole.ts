/** A file written whole or not at all, whatever happens on the way. */
import {
  closeSync,
  fsyncSync,
  linkSync,
  openSync,
  readdirSync,
  realpathSync,
  renameSync,
  statSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs';
import { basename, dirname, join } from 'node:path';
import type { Existing } from '../io.ts';

/**
 * Writes beside the target, brings that to the disk, and only then gives it the target's name: whoever looks, or starts again after
 * a crash, finds the old file or the new one. A file that is already there and to be kept is left alone.
 *
 * @throws the system's error; nothing is left behind then
 */
export function writeWhole(path: string, text: string, existing: Existing): void {
  const target = existing === 'replace' ? resolved(path) : path;
  clearDrafts(target);
  const [draft, handle] = openDraft(target);
  try {
    try {
      writeFileSync(handle, text);
      fsyncSync(handle);
    } finally {
      closeSync(handle);
    }
    if (existing === 'replace') renameSync(draft, target);
    else nameAnew(draft, target);
  } catch (error) {
    unlinkSync(draft);
    throw error;
  }
}

/** Age from which on a draft's process is gone: writing takes seconds [ms]. */
const ABANDONED = 3_600_000;

/** Takes away what killed processes left beside the target. */
function clearDrafts(target: string): void {
  const start = draftStart(target);
  try {
    for (const name of readdirSync(dirname(target))) {
      if (!name.startsWith(start) || !DRAFT_END.test(name.slice(start.length))) continue;
      const draft = join(dirname(target), name);
      if (Date.now() - statSync(draft).mtimeMs > ABANDONED) unlinkSync(draft);
    }
  } catch {
    // A folder that can't be listed, or a draft that another took away meanwhile: the write itself says what matters.
  }
}

const draftStart = (target: string): string => `.${basename(target).slice(0, 200)}.`;
/** Number of the process, and of the attempt where that name was taken. */
const DRAFT_END = /^\d+(?:-\d+)?\.part$/u;

/** Drafts that may lie about before a name is given up. */
const MOST_DRAFTS = 1000;

/**
 * A new file beside the target. A process that was killed leaves its draft behind, and another may bear its number, where processes
 * are numbered anew in every container: the next free name is taken.
 */
function openDraft(target: string): readonly [path: string, handle: number] {
  const name = `${draftStart(target)}${process.pid}`;
  for (let attempt = 0; ; attempt++) {
    const path = join(dirname(target), `${name}${attempt === 0 ? '' : `-${attempt}`}.part`);
    try {
      return [path, openSync(path, 'wx')];
    } catch (error) {
      const taken = error instanceof Error && 'code' in error && error.code === 'EEXIST';
      if (!taken || attempt === MOST_DRAFTS) throw error;
    }
  }
}

/** A link is followed, so that it goes on pointing where it did. */
function resolved(path: string): string {
  try {
    return realpathSync(path);
  } catch {
    return path;
  }
}

/** Gives a draft its name unless that is taken meanwhile: a second link refuses, where renaming would replace. */
function nameAnew(draft: string, target: string): void {
  try {
    linkSync(draft, target);
  } catch (error) {
    if (!(error instanceof Error && 'code' in error && NO_LINKS.has(String(error.code)))) throw error;
    // A file system without links: take the name first, then put the text there.
    closeSync(openSync(target, 'wx'));
    renameSync(draft, target);
    return;
  }
  unlinkSync(draft);
}

const NO_LINKS: ReadonlySet<string> = new Set(['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK']);
