/** The two sides of a cylinder. */
export const SIDES = ['intake', 'exhaust'] as const;
export type Side = (typeof SIDES)[number];
