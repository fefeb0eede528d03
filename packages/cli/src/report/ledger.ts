/** What every report ends with: assumed values, doubts, what is left out, cautions. */
import type { Assumed, ForecastSpread } from '@valvetide/core';
import { assumedIn } from '../render/assumedUnits.ts';
import { fixed } from '../render/fixed.ts';
import { assumedSpread, assumedValue } from '../render/notes.ts';
import type { UnitSystem } from '../render/units.ts';
import { html, type Markup, NOTHING, named } from './html.ts';

/** Doubts about the result, in a box near the top; nothing where there are none. */
export function noticeMarkup(lines: readonly string[]): Markup {
  if (lines.length === 0) return NOTHING;
  const items = lines.map((line) => html`<li>${named(line.replace(/^warning: /, ''))}</li>\n`);
  return html`<section class="notice" aria-labelledby="doubts"><h2 id="doubts">Read with care</h2><ul>
${items}</ul></section>
`;
}

export function assumedMarkup(listed: readonly Assumed[], units: UnitSystem): Markup {
  const assumed = assumedIn(listed, units);
  if (assumed.length === 0)
    return html`<section id="assumed"><h2>Assumed</h2><p>Nothing: the file gives every value.</p></section>\n`;
  const rows = assumed.map((item) => {
    const spread = assumedSpread(item);
    return html`<tr><td>${pathMarkup(item.path)}</td><td>${named(assumedValue(item))}${spread === '' ? NOTHING : html` ± ${named(spread)}`}</td><td>${named(item.reason)}</td></tr>\n`;
  });
  return html`<section id="assumed"><h2>Assumed, because the file leaves it out</h2>
<p>${assumed.length === 1 ? 'One value' : `${assumed.length} values`}. What follows ± is one standard deviation of the estimate.</p>
<table class="ledger"><thead><tr><th scope="col">Field</th><th scope="col">Assumed</th><th scope="col">Why</th></tr></thead><tbody>
${rows}</tbody></table></section>
`;
}

/** What one standard deviation of each unknown does to power, worth most first. */
export function worthMarkup({ worths, rest }: ForecastSpread): Markup {
  const rows = worths.map(
    ({ name, kind, settledBy, powerPct }) =>
      html`<tr><td>${pathMarkup(name)}</td><td>${kind}</td><td>${settledBy === 'pull' ? 'a pull' : 'measuring'}</td><td>± ${fixed(powerPct, 1)} %</td></tr>\n`,
  );
  return html`<section id="worth"><h2>Measure this first</h2>
<p>What one standard deviation of each does to mean power over these speeds. ${rest.unknowns} others, moved together: ± ${fixed(rest.powerPct, 1)} %.</p>
<table class="ledger"><thead><tr><th scope="col">What</th><th scope="col">Known by</th><th scope="col">Settled by</th><th scope="col">Worth</th></tr></thead><tbody>
${rows}</tbody></table></section>
`;
}

/** A path may be broken at its dots. */
export function pathMarkup(path: string): Markup {
  const [first, ...rest] = path.split('.');
  return html`<bdi>${first}${rest.map((part) => html`.<wbr>${part}`)}</bdi>`;
}

const LEFT_OUT: readonly string[] = [
  'valve float, spring surge and anything else that parts the valve from the cam, save a lift loss the file states;',
  'fuel distribution between cylinders, wet flow and metering;',
  'ring seal, blow-by, oil control and windage;',
  'supercharging, part throttle and transients: each point is steady and at full throttle;',
  'swirl, tumble and the shape of a port beyond its measured flow and area;',
  'strength: piston speed is shown, whether the parts bear it is not computed.',
];

export const leftOutMarkup: Markup = html`<section id="left-out"><h2>Not modelled</h2>
<ul class="plain">
${LEFT_OUT.map((line) => html`<li>${line}</li>\n`)}</ul></section>
`;

const CAUTIONS: readonly (readonly [lead: string, text: string])[] = [
  [
    'Clearance is checked by hand.',
    'A forecast is not a clearance. Measure piston to valve, piston to head, coil bind, retainer to seal and rod to cam before the starter turns the engine.',
  ],
  [
    'Over-rev.',
    'The speeds are those of a calculation. Set the limiter and the trip of the dyno 200 to 300 rpm above the planned limit, and never run past the weakest part.',
  ],
  [
    'Detonation.',
    'The octane margin is a caution, not a permission. Start rich and 4 to 6 degrees retarded, go up in steps of 2, back off 2 at the first sign, read the plugs after each pull. Alcohol shows little on a plug.',
  ],
  [
    'The cell.',
    'Nobody in the cell or in the plane of rotation at load. Guard the shaft, extract the exhaust, alarm for carbon monoxide; check full throttle, oil pressure trip, fuel shut-off, emergency stop, extinguisher and water before each pull; protect ears and eyes.',
  ],
  [
    'Fuel.',
    'Methanol is toxic through the skin and its flame is hard to see. Ground the containers, flush a system before it sees another fuel.',
  ],
  ['', 'Local codes and the licensed trade decide.'],
];

export function cautionsMarkup(program: {
  readonly name: string;
  readonly version: string;
}): readonly Markup[] {
  const items = CAUTIONS.map(
    ([lead, text]) => html`<li>${lead === '' ? NOTHING : html`<strong>${lead}</strong> `}${text}</li>\n`,
  );
  return [
    html`<section id="cautions"><h2>Cautions</h2>
<ul class="plain">
${items}</ul></section>
`,
    html`<p>${program.name} ${program.version}. A forecast by a model, not a measurement.</p>`,
  ];
}
