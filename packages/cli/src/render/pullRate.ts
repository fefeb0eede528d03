/** What pulls hold back, for people: torque that brings up to speed what turns. */
import type { HeldBack, PullComparison, PullSummary } from '@valvetide/core';
import { fixed } from './fixed.ts';
import { plain } from './plain.ts';
import { SHOWN, type UnitSystem } from './units.ts';

/** Pound-foot squared [kg m2]. */
const POUND_FOOT2 = 0.0421401100938;

/** How a moment of inertia [kg m2] is shown, and one to count the difference of two rates by. */
const INERTIA: Readonly<
  Record<UnitSystem, { readonly of: (kgM2: number) => string; readonly step: number }>
> = {
  trade: { of: (kgM2) => `${shown(kgM2 / POUND_FOOT2)} lb-ft2`, step: 2 * POUND_FOOT2 },
  si: { of: (kgM2) => `${shown(kgM2)} kg m2`, step: 0.1 },
};

/** Two digits. */
const shown = (value: number): string => String(Number(value.toPrecision(2)));

/** `Measured torque is brought to steady running: a pull of 300 rpm/s holds back 6.6 lb-ft ...`; empty for nothing held back. */
export function heldBackLine(heldBack: HeldBack | null, units: UnitSystem): string {
  if (heldBack === null) return '';
  const { rates, inertia, inertiaSpread, torqueNm } = heldBack;
  const { torque, torqueUnit } = SHOWN[units];
  const one = rates.length === 1;
  const by = one
    ? `${fixed(Math.abs(rates[0]))} rpm/s`
    : `${fixed(rates[0])} to ${fixed(rates[rates.length - 1])} rpm/s`;
  const falls = torqueNm < 0;
  const pull = one ? `a pull that ${falls ? 'falls' : 'rises'} by ${by}` : `pulls of ${by}`;
  const amount = `${fixed(torque(Math.abs(torqueNm)), 1)} ${torqueUnit}`;
  const does = falls ? (one ? 'gives back' : 'give back') : one ? 'holds back' : 'hold back';
  const mean = one ? '' : ' in the mean';
  const { of } = INERTIA[units];
  const turns =
    inertiaSpread === null
      ? `${of(inertia)}, as the file states`
      : `${of(inertia)}, assumed, give or take ${of(inertiaSpread)}; engine.inertia states it`;
  return `Measured torque is brought to steady running: ${pull} ${does} ${amount}${mean}, taken by what turns with the crank (${turns}).`;
}

/** What two sheets differ by because their pulls went at different rates; empty where they did not, or neither says. */
export function ratesApartLine({ before, after, rates }: PullComparison, units: UnitSystem): string {
  const { before: one, after: other } = rates;
  if (one === other) return '';
  if (one === null || other === null) {
    const [says, silent, rate] = one === null ? [after, before, other] : [before, after, one];
    return `${plain(says)} says how fast its pulls went (${rateText(rate ?? 0)}), ${plain(silent)} does not: at another rate what turns holds back another torque.`;
  }
  const turning = INERTIA[units].of(INERTIA[units].step);
  const faster = plain(other > one ? after : before);
  return `${plain(before)} was pulled at ${rateText(one)}, ${plain(after)} at ${rateText(other)}: for every ${turning} that turns, ${faster} shows ${moreText(other - one, units)} less for that alone. A backtest, which knows the engine, allows for it.`;
}

/** That the pulls of one sheet differ so; empty where they do not. */
export function ratesWithinLine({ pulls }: PullSummary, units: UnitSystem): string {
  const rates = [...new Set(pulls.flatMap(({ rate }) => rate ?? []))].sort((a, b) => a - b);
  if (rates.length < 2) return '';
  const apart = rates[rates.length - 1] - rates[0];
  return `Its pulls went at ${rates.map(rateText).join(' and ')}: for every ${INERTIA[units].of(INERTIA[units].step)} that turns they are ${moreText(apart, units)} apart, which counts as scatter here.`;
}

/** `; pulled at 300 rpm/s`, behind what the figures refer to; empty where the sheet doesn't say, or its pulls differ. */
export function rateOfAll({ pulls }: PullSummary): string {
  const [rate] = new Set(pulls.map((pull) => pull.rate ?? null));
  return rate === null || rate === 0 || pulls.some((pull) => pull.rate !== rate)
    ? ''
    : `; pulled at ${rateText(rate)}`;
}

function rateText(rate: number): string {
  if (rate === 0) return 'held speeds, or corrected for inertia';
  return `${fixed(Math.abs(rate))} rpm/s${rate < 0 ? ' falling' : ''}`;
}

function moreText(rate: number, units: UnitSystem): string {
  const { torque, torqueUnit } = SHOWN[units];
  const heldNm = (INERTIA[units].step * Math.abs(rate) * Math.PI) / 30;
  return `${fixed(torque(heldNm), 1)} ${torqueUnit}`;
}
