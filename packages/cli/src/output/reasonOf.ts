/** A system error in words. */
import { plainShort } from '../render/plain.ts';

const REASONS: Readonly<Record<string, string>> = {
  ENOENT: 'no such file or folder',
  EACCES: 'permission denied',
  EPERM: 'permission denied',
  EISDIR: 'it is a directory',
  ENOTDIR: 'a part of the path is not a folder',
  EEXIST: 'already there',
  ENOSPC: 'the disk is full',
  EROFS: 'the disk is read-only',
  ENAMETOOLONG: 'the name is too long',
  EMFILE: 'too many open files',
  ELOOP: 'its links lead in a circle',
  NOT_REGULAR: 'it is a pipe or a device: name a file, or - for standard input',
  TOO_LARGE: 'it is larger than any sheet, more than 16 MB',
};

export function reasonOf(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? String(error.code) : '';
  return REASONS[code] ?? plainShort(code || (error instanceof Error ? error.message : String(error)));
}
