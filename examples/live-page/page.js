/** The page: sliders to the worker, points from it into two drawings. */
const SLIDERS = [
  {
    path: 'induction.runner.length',
    name: 'Intake runner',
    unit: 'mm',
    min: 40,
    max: 260,
    step: 5,
    value: 95,
  },
  {
    path: 'exhaust.primary.length',
    name: 'Exhaust primary',
    unit: 'mm',
    min: 300,
    max: 1100,
    step: 20,
    value: 640,
  },
  { path: 'cam.advance', name: 'Cam advance', unit: 'deg', min: -8, max: 10, step: 1, value: 2 },
  { path: 'chamber.compression', name: 'Compression', unit: '', min: 8.5, max: 14, step: 0.1, value: 10.8 },
  {
    path: 'induction.carburetor.rating',
    name: 'Carburetor',
    unit: 'cfm',
    min: 50,
    max: 160,
    step: 2,
    value: 92,
  },
];
const RPM = [5000, 6000, 7000, 8000, 9000, 10000];
const BAND = { fromRpm: RPM[0], toRpm: RPM.at(-1) };
/** A hand that rests so long wants to know how sure the gain is [ms]. */
const REST = 900;

const { text, workerCode } = window.liveEngine;
const worker = new Worker(URL.createObjectURL(new Blob([workerCode], { type: 'text/javascript' })));
const at = (id) => document.getElementById(id);
const state = {
  id: 0,
  pinned: settingsNow(SLIDERS.map(({ value }) => value)),
  base: [],
  now: [],
  sigmaPct: null,
  rest: 0,
};

function settingsNow(values) {
  return Object.fromEntries(
    SLIDERS.map(({ path, unit }, i) => [path, unit === '' ? values[i] : `${values[i]} ${unit}`]),
  );
}

function chosen() {
  return settingsNow(SLIDERS.map((_, i) => Number(at(`s${i}`).value)));
}

at('sliders').append(
  ...SLIDERS.map(({ name, unit, min, max, step, value }, i) => {
    const row = document.createElement('div');
    row.className = 'row';
    const label = Object.assign(document.createElement('label'), { htmlFor: `s${i}`, textContent: name });
    const input = Object.assign(document.createElement('input'), { id: `s${i}`, type: 'range' });
    Object.assign(input, { min, max, step });
    input.value = value;
    const shown = document.createElement('output');
    shown.htmlFor.add(`s${i}`);
    const tell = () => {
      shown.textContent = `${input.value}${unit === '' ? ':1' : ` ${unit}`}`;
      input.setAttribute('aria-valuetext', shown.textContent);
    };
    input.addEventListener('input', () => {
      tell();
      ask();
    });
    tell();
    row.append(label, shown, input);
    return row;
  }),
);

at('pin').addEventListener('click', () => {
  state.pinned = chosen();
  state.base = [];
  ask();
});
at('back').addEventListener('click', () => {
  SLIDERS.forEach(({ path }, i) => {
    at(`s${i}`).value = Number.parseFloat(state.pinned[path]);
    at(`s${i}`).dispatchEvent(new Event('input'));
  });
});

/** A new question drops the one under way. */
function ask() {
  clearTimeout(state.rest);
  state.id += 1;
  state.now = [];
  state.sigmaPct = null;
  const isBase = state.base.length < RPM.length;
  state.asked = isBase ? 'base' : 'now';
  if (isBase) state.base = [];
  worker.postMessage({ id: state.id, ask: 'curve', rpm: RPM, settings: isBase ? state.pinned : chosen() });
  tell('working');
}

const isPinned = () => JSON.stringify(chosen()) === JSON.stringify(state.pinned);

worker.onmessage = ({ data }) => {
  if (data.id !== state.id) return;
  if (data.problem !== undefined) return tell('problem', data.problem);
  if (data.point !== undefined) {
    state[state.asked] = [...state[state.asked], data.point];
    draw();
  }
  if (data.done === true) {
    at('limits').textContent = data.breaches.join(' ');
    if (state.asked === 'base' && !isPinned()) return ask();
    if (state.asked === 'base') state.now = state.base;
    draw();
    tell('done');
    if (!isPinned()) state.rest = setTimeout(askGain, REST);
  }
  if (data.progress !== undefined) tell('sure', data.progress);
  if (data.uncertainty !== undefined) {
    state.sigmaPct = data.uncertainty?.sigmaPct ?? null;
    draw();
    tell('done', data.uncertainty);
  }
};

function askGain() {
  state.id += 1;
  worker.postMessage({ id: state.id, ask: 'gain', pinned: state.pinned, settings: chosen(), band: BAND });
}

const meanPower = (points) => points.reduce((sum, { powerKw }) => sum + powerKw, 0) / points.length;

function tell(what, more) {
  const whole = state.now.length === RPM.length && state.base.length === RPM.length;
  const pct = whole ? 100 * (meanPower(state.now) / meanPower(state.base) - 1) : null;
  const gain = pct === null ? '' : `${pct < 0 ? '' : '+'}${pct.toFixed(1)} % mean power`;
  const sure = state.sigmaPct === null ? '' : `\u00a0+/-\u00a0${state.sigmaPct.toFixed(1)}\u00a0%`;
  if (what === 'problem') at('answer').textContent = more;
  else if (what === 'working') at('answer').textContent = 'Working ...';
  else if (isPinned()) at('answer').textContent = 'This is the pinned engine: move a slider.';
  else at('answer').textContent = `${gain}${sure} against the pinned engine`;
  at('sure').textContent =
    what === 'sure'
      ? `How sure is that? ${Math.round(100 * more)} %`
      : more?.measureFirst
        ? `Measure this first: ${more.measureFirst.path}.`
        : '';
  document.body.dataset.state = what;
}

const SVG = 'http://www.w3.org/2000/svg';
function shape(name, attributes, words) {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value);
  if (words !== undefined) element.textContent = words;
  return element;
}

/** Round steps for an axis from the lowest to the highest of the values. */
function scaleOf(values, least) {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const span = Math.max(high - low, least);
  const step = [0.5, 1, 2, 5, 10, 20, 50].find((round) => span / round <= 5) ?? 100;
  const from = Math.floor(low / step) * step;
  const to = Math.max(Math.ceil(high / step) * step, from + step);
  return { from, to, step };
}

function chart(id, unit, lines, ribbon, least) {
  const svg = at(id);
  const [width, height, left, right, top, bottom] = [360, 200, 44, 12, 12, 34];
  const values = [
    ...lines.flatMap(({ points }) => points.map(([, y]) => y)),
    ...ribbon.flatMap(([, a, b]) => [a, b]),
  ];
  svg.replaceChildren();
  if (values.length === 0) return;
  const { from, to, step } = scaleOf(values, least);
  const x = (rpm) => left + ((rpm - RPM[0]) / (RPM.at(-1) - RPM[0])) * (width - left - right);
  const y = (value) => height - bottom - ((value - from) / (to - from)) * (height - top - bottom);
  for (let value = from; value <= to + step / 2; value += step) {
    svg.append(
      shape('line', {
        x1: left,
        x2: width - right,
        y1: y(value),
        y2: y(value),
        class: Math.abs(value) < 1e-9 ? 'zero' : 'rule',
      }),
      shape('text', { x: left - 6, y: y(value) + 4, 'text-anchor': 'end' }, String(Number(value.toFixed(1)))),
    );
  }
  RPM.forEach((rpm, i) => {
    if (i % 2 === 0)
      svg.append(
        shape(
          'text',
          { x: x(rpm), y: height - 18, 'text-anchor': i === 0 ? 'start' : 'middle' },
          String(rpm),
        ),
      );
  });
  svg.append(
    shape('text', { x: width - right, y: height - 4, 'text-anchor': 'end' }, 'rpm'),
    shape('text', { x: 2, y: height - 4 }, unit),
  );
  if (ribbon.length > 1) {
    const edge = [
      ...ribbon.map(([rpm, a]) => [rpm, a]),
      ...ribbon.toReversed().map(([rpm, , b]) => [rpm, b]),
    ];
    svg.append(
      shape('polygon', { class: 'ribbon', points: edge.map(([rpm, v]) => `${x(rpm)},${y(v)}`).join(' ') }),
    );
  }
  for (const { points, name } of lines)
    svg.append(
      shape('polyline', { class: name, points: points.map(([rpm, v]) => `${x(rpm)},${y(v)}`).join(' ') }),
    );
}

function draw() {
  const torque = (points) =>
    points.filter(({ torqueNm }) => torqueNm !== null).map(({ rpm, torqueNm }) => [rpm, torqueNm]);
  chart(
    'curve',
    'N m',
    [
      { name: 'base', points: torque(state.base) },
      { name: 'now', points: torque(state.now) },
    ],
    [],
    8,
  );
  const gains = torque(state.now).flatMap(([rpm, after]) => {
    const before = state.base.find((point) => point.rpm === rpm)?.torqueNm;
    return before ? [[rpm, 100 * (after / before - 1)]] : [];
  });
  const ribbon =
    state.sigmaPct === null
      ? []
      : gains.map(([rpm, pct]) => [rpm, pct - state.sigmaPct, pct + state.sigmaPct]);
  chart(
    'gain',
    '%',
    [
      { name: 'level', points: RPM.map((rpm) => [rpm, 0]) },
      { name: 'now', points: gains },
    ],
    ribbon,
    4,
  );
}

worker.postMessage({ id: 0, ask: 'engine', text });
ask();
