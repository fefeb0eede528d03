/** Transport properties of air and of burned gas: viscosity and heat conductivity. */

/**
 * Dynamic viscosity of air [Pa s] by Sutherland's law, 100 to 1900 K.
 *
 * Source: U.S. Standard Atmosphere, 1976, eq. 51 (constants 1.458e-6 and 110.4 K). Fuel vapour and residual shift
 * it by less than the 10 % that matter to a cube root.
 */
export function airViscosity(T: number): number {
  return (1.458e-6 * T * Math.sqrt(T)) / (T + 110.4);
}

/**
 * Kinematic viscosity of unburned gas [m2/s], that of air of gas constant `R` [J/(kg K)].
 *
 * @param T - temperature [K]
 * @param p - pressure [Pa]
 */
export function kinematicViscosity(T: number, p: number, R: number): number {
  return (airViscosity(T) * R * T) / p;
}

/**
 * Dynamic viscosity of hydrocarbon-air combustion products [Pa s], 500 to 4000 K, any usual pressure.
 *
 * Source: Mansouri and Heywood, Combustion Science and Technology 23 (1980), as given by Heywood, Internal Combustion
 * Engine Fundamentals (1988), eqs. 4.60 and 4.61 (from memory): 3.3e-7 T^0.7 / (1 + 0.027 phi).
 *
 * @param phi - fuel-air equivalence ratio [-]
 */
export function productsViscosity(T: number, phi: number): number {
  return (3.3e-7 * T ** 0.7) / (1 + 0.027 * phi);
}

/** Prandtl number of air and of burned gas [-]: 0.69 to 0.76 from 300 to 2500 K in tables, taken as constant. */
export const PRANDTL = 0.7;

/** Heat conductivity [W/(m K)] from viscosity [Pa s] and specific heat at constant pressure [J/(kg K)]: k = mu cp / Pr. */
export function gasConductivity(viscosity: number, cp: number): number {
  return (viscosity * cp) / PRANDTL;
}
