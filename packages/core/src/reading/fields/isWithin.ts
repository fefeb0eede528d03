/** Fields that lie in one another, and the sections they lie in. */

/** Whether `path` is `field` or lies below it. */
export function isWithin(path: string, field: string): boolean {
  return path === field || path.startsWith(`${field}.`);
}

/** Whether two paths are the same or one lies within the other. */
export function areNested(a: string, b: string): boolean {
  return isWithin(a, b) || isWithin(b, a);
}

/** The section of the file that a field lies in: the first name of its path. */
export function sectionOf(path: string): string {
  return path.split('.')[0];
}
