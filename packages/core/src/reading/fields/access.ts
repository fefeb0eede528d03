/** How far an engine has to come apart. */

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
