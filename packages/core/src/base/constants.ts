/** Physical constants used throughout; SI. */

/** Universal gas constant [J/(mol K)], exact since the SI revision of 2019 (CODATA 2018). */
export const R_UNIVERSAL = 8.31446261815324;

/** Standard atmosphere [Pa], exact by definition (ISO 2533:1975). */
export const STANDARD_ATMOSPHERE = 101_325;

/** Reference temperature of formation enthalpies [K] (NASA TM-4513, 1993). */
export const T_REFERENCE = 298.15;

/** Bar [Pa], exact by definition. */
export const BAR = 1e5;

/** Inch of mercury at 0 degC [Pa] (NIST SP 811, B.8). */
export const INCH_OF_MERCURY = 3386.389;

/** Pound-force a square inch [Pa] (NIST SP 811, B.8). */
export const PSI = 6894.757293168;

/** Inch of water at 4 degC [Pa] (NIST SP 811, B.8). */
export const INCH_OF_WATER = 249.08891;

/** Pound-force foot [N m], exact by definition. */
export const POUND_FOOT = 1.3558179483314;

/** Horsepower of 550 ft lbf/s [W], exact by definition. */
export const HORSEPOWER = 745.6998715822702;

/** Inch [m], exact by definition. */
export const INCH = 0.0254;

/** Foot [m], exact by definition. */
export const FOOT = 0.3048;

/** Cubic foot a minute [m3/s], exact by definition. */
export const CUBIC_FOOT_A_MINUTE: number = FOOT ** 3 / 60;
