/** Physical constants used throughout; SI. */

/** Universal gas constant [J/(mol K)], exact since the SI revision of 2019 (CODATA 2018). */
export const R_UNIVERSAL = 8.31446261815324;

/** Standard atmosphere [Pa], exact by definition (ISO 2533:1975). */
export const STANDARD_ATMOSPHERE = 101_325;

/** Reference temperature of formation enthalpies [K] (NASA TM-4513, 1993). */
export const T_REFERENCE = 298.15;
