/** The library in its worker: forecasts what the page asks for, and drops it when the page asks for something else. */
import {
  editDocument,
  forecastPoints,
  gainUncertainty,
  limitBreaches,
  pinBaseline,
  problemLine,
  readDocument,
} from '@valvetide/core';

/** Quick enough to follow a hand; what coarse cells get wrong is common to both curves. */
const MESH = { intakeCell: 0.04, exhaustCell: 0.1 };

let stop = new AbortController();
let text = '';

addEventListener('message', ({ data }) => {
  stop.abort();
  stop = new AbortController();
  if (data.ask === 'engine') text = data.text;
  const { signal } = stop;
  const answer = (more) => {
    if (!signal.aborted) postMessage({ id: data.id, ...more });
  };
  const work = data.ask === 'curve' ? curve : data.ask === 'gain' ? gain : async () => {};
  work(data, signal, answer).catch((error) => answer({ problem: String(error.message ?? error) }));
});

/** The engine of the page with the settings written into its file, and every estimate written out. */
function baselineWith(settings) {
  const read = readDocument(text, { file: 'engine.yaml' });
  if (!read.ok) return read;
  // Pinned first, so that a setting alters what it names and no estimate that hangs on it.
  const pinned = pinBaseline(read.value);
  if (!pinned.ok) return pinned;
  const document = Object.entries(settings).reduce(
    (edited, [path, value]) => editDocument(edited, path, value),
    pinned.value.document,
  );
  return pinBaseline(document);
}

async function curve({ settings, rpm }, signal, answer) {
  const built = baselineWith(settings);
  if (!built.ok) return answer({ problem: problemLine(built.problems[0]) });
  const points = forecastPoints(built.value.combination, { rpm, mesh: MESH, signal });
  for (let step = await points.next(); ; step = await points.next()) {
    if (step.done) {
      const breaches = limitBreaches(built.value.combination, step.value).map(({ message }) => message);
      return answer({ done: step.value.complete, breaches });
    }
    const { rpm: speed, torqueNm = null, powerKw = null } = step.value;
    answer({ point: { rpm: speed, torqueNm, powerKw } });
  }
}

async function gain({ pinned, settings, band }, signal, answer) {
  const built = baselineWith(pinned);
  if (!built.ok) return answer({ problem: problemLine(built.problems[0]) });
  const edits = Object.entries(settings)
    .filter(([path, value]) => value !== pinned[path])
    .map(([path, value]) => ({ kind: 'set', path, value }));
  const change = { name: 'as set', edits, cost: null, hours: null, reversible: true, insteadOf: null };
  const found = await gainUncertainty(built.value, change, band, {
    signal,
    onProgress: (done, total) => answer({ progress: done / total }),
  });
  answer({ uncertainty: found });
}
