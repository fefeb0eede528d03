/** What all made-up results of studies have in common. */

export const PROGRAM = { name: 'valvetide', version: '0.1.0' } as const;
export const RPM = [3000, 4000, 5000, 6000];
export const BASIS = {
  schemaVersion: 1,
  program: PROGRAM,
  complete: true,
  rpm: RPM,
  band: { fromRpm: 4000, toRpm: 6000 },
  weighting: 'speed',
  fidelity: 'representative',
  correction: 'J607',
} as const;
