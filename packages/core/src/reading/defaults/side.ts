/** The two sides of a cylinder. */
export type Side = 'intake' | 'exhaust';
