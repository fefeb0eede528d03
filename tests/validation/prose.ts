/** What the validation report says in words. */

export const PREFACE = `# Validation

What the program computes beside what others published, figure by figure. \`npm run validation\` runs the checks themselves and
writes this page; the same cases are tests, and a test fails where the page no longer says what they give.

Three kinds of source stand here. Closed forms and tables are exact: the program must meet them to the printed digits. An
independent calculation shows that two programs agree, not that both are right. Measured engines show what a forecast is
worth, and there are few: the figures a magazine prints of one engine in two states, and the ratings of production engines.
Marked "from memory" is what could not be checked against the print.`;

export const NOT_MODELLED = `## What is not modelled

None of the checks above can speak for these:

- **Valve float, spring surge, lifters that collapse or pump up.** The valve follows the cam at any speed, save a lift loss you
  state. A forecast past the speed the springs bear shows power that isn't there.
- **Torsion of cam and crank, stretch of chain and belt.** Valve timing is what was set.
- **Wet flow and distribution.** Every cylinder gets the mixture that is stated for it. A carburetor that goes lean or rich with speed or
  signal, a weak signal of a large one, drops in bends: all of it is missing.
- **Cylinder to cylinder.** The same cam and runner for all; flow, compression, primary and mixture of each only where they are stated. What
  differs between cylinders by firing order and shared pipes is there with \`--fidelity all\`.
- **Ring seal, blow-by, crevices** that fill and empty.
- **Windage, oil control, pumping in the crankcase,** and friction that changes with clearance, oil temperature or springs.
- **Swirl and tumble.** How fast it burns follows from the chamber's shape, its squish and the place of one plug, and nothing else of its form.
- **The shape of a port** beyond its measured flow, its length and its area: bias, separation, reversion beyond its own
  coefficient.
- **Bends and junctions.** A collector is a volume and a pipe, whatever its angles. Pipes are straight.
- **Unsteady flow through valves, carburetor and throttle.** Steady coefficients hold at each instant.
- **Knock that moves with deposits, hot spots and plugs.** One integral, and two octane numbers for a fuel.
- **Emissions, part throttle, supercharging, transients, idle.**
- **Strength.** Nothing here says that a part bears its load.
`;
