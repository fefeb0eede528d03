/** The combination file that `valvetide init` prints: an invented V8 with every line explained. */

/** @param schema - where the schema is, seen from where the file will stand */
export function starterFile(name: string, schema: string): string {
  return `# yaml-language-server: $schema=${schema}
# A combination: one complete engine specification.
# Every quantity carries its unit (4.155 in, 68 cc, 850 cfm, 28 inH2O, 60 degF). Only engine, chamber and
# heads must say something: what you leave out is estimated, and every result lists the estimates.
# Check this file with: valvetide inspect FILE
# The first line lets editors complete and explain the fields; valvetide schema -o FILE writes the schema elsewhere.
name: ${JSON.stringify(name)}

engine:
  cylinders: 8
  layout: v
  bore: 3.960 in
  stroke: 3.440 in
  rod: 5.880 in # centre to centre
  firingOrder: 1-8-4-3-6-5-7-2
  banks: [[1, 3, 5, 7], [2, 4, 6, 8]]

chamber:
  shape: wedge # wedge, bathtub, bowl-in-piston, hemispherical or pent-roof
  plug: side # central or side
  squishArea: 18 % # of the bore
  volume: 58 cc # measured, with valves and plug in place
  dish: 6.5 cc # with the valve pockets; a dome goes under dome
  deck: 0.012 in # piston below the deck at top centre
  gasketBore: 4.030 in
  gasketThickness: 0.042 in # compressed

heads:
  valvesPerCylinder: 2
  bench:
    depression: 28 inH2O # what the flow below was taken at
    exhaustPipe: true
  intake:
    valve: 1.96 in
    portVolume: 184 cc
    portLength: 5.2 in
    # Flow of one cylinder. A CSV sheet works too: flow: flow.csv
    flow:
      - { lift: 0.100 in, flow: 63 cfm }
      - { lift: 0.200 in, flow: 122 cfm }
      - { lift: 0.300 in, flow: 174 cfm }
      - { lift: 0.400 in, flow: 211 cfm }
      - { lift: 0.500 in, flow: 233 cfm }
      - { lift: 0.560 in, flow: 239 cfm }
  exhaust:
    valve: 1.57 in
    flow:
      - { lift: 0.100 in, flow: 51 cfm }
      - { lift: 0.200 in, flow: 98 cfm }
      - { lift: 0.300 in, flow: 136 cfm }
      - { lift: 0.400 in, flow: 161 cfm }
      - { lift: 0.500 in, flow: 175 cfm }
      - { lift: 0.560 in, flow: 179 cfm }

cam:
  lifter: hydraulic-roller # hydraulic or solid, flat or roller
  separation: 111 deg # cam degrees
  intake:
    advertised: 280 deg
    checkedAt: 0.006 in # lifter rise of the advertised figure; makers differ
    at050: 227 deg
    lobeLift: 0.336 in
    centreline: 107 deg # as installed, after top centre
  exhaust:
    advertised: 287 deg
    checkedAt: 0.006 in
    at050: 234 deg
    lobeLift: 0.342 in
    centreline: 115 deg # before top centre

valvetrain:
  type: pushrod
  intakeRatio: 1.6
  exhaustRatio: 1.6
  ratioIs: stamped # measured, stamped or production

induction:
  carburetor:
    rating: 680 cfm
    barrels: 4 # four barrels are rated at 1.5 inHg, one and two at 3.0
  manifold: single-plane # or dual-plane, long-runner, individual-runner, individual-throttles

exhaust:
  style: headers
  primary: { diameter: 1.750 in, wall: 0.065 in, length: 33 in }
  collector: { diameter: 2.875 in, wall: 0.065 in, length: 15 in }
  groups: [[1, 3, 5, 7], [2, 4, 6, 8]] # cylinders that share a collector
  muffler: open

fuel: pump-93

mixture:
  lambda: 0.87 # 1 is stoichiometric

# The air of the day, and the standard that torque and power are shown to. Curves of different standards
# differ by 4 to 5 %: J607 is 60 F and 29.92 inHg dry, J1349 is 77 F and 29.23 inHg dry.
weather:
  barometer: 29.92 inHg
  temperature: 60 degF
  humidity: 0 %
correction: J607
`;
}
