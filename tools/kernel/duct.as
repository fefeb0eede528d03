// The stage of a duct as packages/core/src/network/duct.ts has it, two cells at a time.

import { get, HEAD, pair, put, putPair } from './columns';

@inline function limited(back: f64, fore: f64): f64 {
  const sum = back + fore;
  const most = abs(sum) - abs(abs(back) - abs(fore));
  const mean = 0.5 * sum;
  return 0.5 * (abs(mean + most) - abs(mean - most));
}
@inline function limitedPair(back: v128, fore: v128): v128 {
  const sum = f64x2.add(back, fore);
  const most = f64x2.sub(f64x2.abs(sum), f64x2.abs(f64x2.sub(f64x2.abs(back), f64x2.abs(fore))));
  const half = f64x2.splat(0.5);
  const mean = f64x2.mul(half, sum);
  return f64x2.mul(half, f64x2.sub(f64x2.abs(f64x2.add(mean, most)), f64x2.abs(f64x2.sub(mean, most))));
}

@inline function limit(x: usize, slope: usize, n: i32): void {
  put(slope, 0, get(x, 1) - get(x, 0));
  let i = 1;
  for (; i + 1 < n - 1; i += 2)
    putPair(slope, i, limitedPair(f64x2.sub(pair(x, i), pair(x, i - 1)), f64x2.sub(pair(x, i + 1), pair(x, i))));
  for (; i < n - 1; i++) put(slope, i, limited(get(x, i) - get(x, i - 1), get(x, i + 1) - get(x, i)));
  put(slope, n - 1, get(x, n - 1) - get(x, n - 2));
}

@inline function flattenJump(rho: usize, p: usize, slope: usize, n: i32, i: i32): void {
  const most = max(abs(get(slope, i)) / get(rho, i), abs(get(slope, 2 * n + i)) / get(p, i));
  if (!(most > 0.4)) return;
  for (let q = 0; q < 4; q++) put(slope, q * n + i, get(slope, q * n + i) * (0.4 / most));
}

@inline function two(a: f64, b: f64): v128 {
  return f64x2.replace_lane(f64x2.splat(a), 1, b);
}

@inline function held(k: i32, last: i32): i32 {
  return max(0, min(last, k));
}

/** Where in the tables gas of energy e and burned share b lies, from a guess on. */
function place(freshU: usize, burnedU: usize, last: i32, guess: i32, e: f64, b: f64): i32 {
  let k = guess;
  while (k < last && e >= blend(freshU, burnedU, k + 1, b)) k++;
  while (k > 0 && e < blend(freshU, burnedU, k, b)) k--;
  return k;
}
@inline function blend(freshU: usize, burnedU: usize, k: i32, b: f64): f64 {
  const fresh = get(freshU, k);
  return fresh + b * (get(burnedU, k) - fresh);
}

/** Decodes `count` ducts, whose blocks and offsets in the state stand in `list`, from the state at `y`. */
export function decodeDucts(list: usize, count: i32, y: usize): void {
  for (let j = 0; j < count; j++)
    decodeDuct(load<i32>(list + (<usize>j << 3)), y + (<usize>load<i32>(list + (<usize>j << 3), 4) << 3));
}

function decodeDuct(block: usize, y: usize): void {
  const n = <i32>get(block, 10);
  const s = <usize>n << 3;
  const freshU = <usize>get(block, 0);
  const burnedU = <usize>get(block, 1);
  const tMin = get(block, 2);
  const dT = get(block, 3);
  const freshR = get(block, 4);
  const dR = get(block, 5) - freshR;
  const last = <i32>get(block, 6);
  const rho = block + (HEAD << 3);
  const u = rho + s;
  const p = u + s;
  const T = p + s;
  const b = T + s;
  const R = b + s;
  const cv = R + s;
  const c = cv + s;
  const e = c + s;
  const eBurn = e + s;
  const uA = eBurn + s;
  const slope = uA + s;
  const perVolume = slope + 4 * s;
  const cellArea = perVolume + s;
  const perKelvin = 1 / dT;
  const zero = f64x2.splat(0);
  const one = f64x2.splat(1);
  const half = f64x2.splat(0.5);
  // The last pair of an odd number of cells overlaps the one before: what is worked out twice comes out alike. A lone cell is a pair
  // whose second half is nothing that is used: each column overwrites what the one before it left there, and the slopes come last.
  for (let i = 0; i < n; i += 2) {
    if (i + 1 === n && n > 1) i--;
    const m = pair(y, i);
    const perM = f64x2.div(one, m);
    const ui = f64x2.mul(pair(y + s, i), perM);
    const ei = f64x2.sub(f64x2.mul(pair(y + 2 * s, i), perM), f64x2.mul(f64x2.mul(half, ui), ui));
    const share = f64x2.mul(pair(y + 3 * s, i), perM);
    const bi = v128.bitselect(zero, v128.bitselect(one, share, f64x2.gt(share, one)), f64x2.lt(share, zero));
    const guess = i32x4.trunc_sat_f64x2_s_zero(f64x2.mul(f64x2.sub(pair(T, i), f64x2.splat(tMin)), f64x2.splat(perKelvin)));
    let k0 = held(i32x4.extract_lane(guess, 0), last);
    let k1 = held(i32x4.extract_lane(guess, 1), last);
    let freshLo = two(get(freshU, k0), get(freshU, k1));
    let freshHi = two(get(freshU, k0 + 1), get(freshU, k1 + 1));
    let deltaLo = f64x2.sub(two(get(burnedU, k0), get(burnedU, k1)), freshLo);
    let deltaHi = f64x2.sub(two(get(burnedU, k0 + 1), get(burnedU, k1 + 1)), freshHi);
    let lo = f64x2.add(freshLo, f64x2.mul(bi, deltaLo));
    let hi = f64x2.add(freshHi, f64x2.mul(bi, deltaHi));
    // Gas is seldom in another cell of the tables than before.
    if (!i64x2.all_true(v128.and(f64x2.ge(ei, lo), f64x2.lt(ei, hi)))) {
      k0 = place(freshU, burnedU, last, k0, f64x2.extract_lane(ei, 0), f64x2.extract_lane(bi, 0));
      k1 = place(freshU, burnedU, last, k1, f64x2.extract_lane(ei, 1), f64x2.extract_lane(bi, 1));
      freshLo = two(get(freshU, k0), get(freshU, k1));
      freshHi = two(get(freshU, k0 + 1), get(freshU, k1 + 1));
      deltaLo = f64x2.sub(two(get(burnedU, k0), get(burnedU, k1)), freshLo);
      deltaHi = f64x2.sub(two(get(burnedU, k0 + 1), get(burnedU, k1 + 1)), freshHi);
      lo = f64x2.add(freshLo, f64x2.mul(bi, deltaLo));
      hi = f64x2.add(freshHi, f64x2.mul(bi, deltaHi));
    }
    const rise = f64x2.sub(hi, lo);
    const perRise = f64x2.div(one, rise);
    const f = f64x2.mul(f64x2.sub(ei, lo), perRise);
    const Ti = f64x2.add(f64x2.splat(tMin), f64x2.mul(f64x2.splat(dT), f64x2.add(two(<f64>k0, <f64>k1), f)));
    const Ri = f64x2.add(f64x2.splat(freshR), f64x2.mul(bi, f64x2.splat(dR)));
    const ri = f64x2.mul(m, pair(perVolume, i));
    const RT = f64x2.mul(Ri, Ti);
    const stiff = f64x2.add(one, f64x2.mul(f64x2.mul(Ri, f64x2.splat(dT)), perRise));
    putPair(rho, i, ri);
    putPair(u, i, ui);
    putPair(p, i, f64x2.mul(ri, RT));
    putPair(T, i, Ti);
    putPair(b, i, bi);
    putPair(R, i, Ri);
    putPair(cv, i, f64x2.mul(rise, f64x2.splat(perKelvin)));
    putPair(c, i, f64x2.sqrt(f64x2.mul(stiff, RT)));
    putPair(e, i, ei);
    putPair(eBurn, i, f64x2.add(deltaLo, f64x2.mul(f, f64x2.sub(deltaHi, deltaLo))));
    putPair(uA, i, f64x2.mul(ui, pair(cellArea, i)));
  }
  if (n === 1) {
    for (let q = 0; q < 4; q++) put(slope, q, 0);
    return;
  }
  limit(rho, slope, n);
  limit(uA, slope + s, n);
  limit(p, slope + 2 * s, n);
  limit(b, slope + 3 * s, n);
  flattenJump(rho, p, slope, n, 0);
  flattenJump(rho, p, slope, n, n - 1);
}

/** Adds the balances of `count` ducts into the rates at `d`; the fluxes at their ends stand in their blocks. */
export function balanceDucts(list: usize, count: i32, d: usize): void {
  for (let j = 0; j < count; j++)
    balanceDuct(load<i32>(list + (<usize>j << 3)), d + (<usize>load<i32>(list + (<usize>j << 3), 4) << 3));
}

function balanceDuct(block: usize, d: usize): void {
  const n = <i32>get(block, 10);
  const s = <usize>n << 3;
  const dR = f64x2.splat(get(block, 5) - get(block, 4));
  const fanning = get(block, 7);
  const wallTemperature = get(block, 8);
  const heatMultiplier = get(block, 9);
  const rho = block + (HEAD << 3);
  const u = rho + s;
  const p = u + s;
  const T = p + s;
  const b = T + s;
  const R = b + s;
  const cv = R + s;
  const c = cv + s;
  const e = c + s;
  const eBurn = e + s;
  const uA = eBurn + s;
  const slope = uA + s;
  const slopeU = slope + s;
  const slopeP = slopeU + s;
  const slopeB = slopeP + s;
  const wallArea = slope + 6 * s;
  const face = wallArea + s;
  const perFace = face + s + 8;
  const F0 = perFace + s + 8;
  const F1 = F0 + s + 16;
  const F2 = F1 + s + 16;
  const F3 = F2 + s + 16;
  const half = f64x2.splat(0.5);
  const zero = f64x2.splat(0);
  // The flux through face r, between cells i and r = i + 1. Of an odd face the second half of the pair is nothing that is used.
  for (let i = 0; i < n - 1; i += 2) {
    const r = i + 1;
    const per = pair(perFace, r);
    const rhoL = f64x2.add(pair(rho, i), f64x2.mul(half, pair(slope, i)));
    const uL = f64x2.mul(f64x2.add(pair(uA, i), f64x2.mul(half, pair(slopeU, i))), per);
    const pL = f64x2.add(pair(p, i), f64x2.mul(half, pair(slopeP, i)));
    const rhoR = f64x2.sub(pair(rho, r), f64x2.mul(half, pair(slope, r)));
    const uR = f64x2.mul(f64x2.sub(pair(uA, r), f64x2.mul(half, pair(slopeU, r))), per);
    const pR = f64x2.sub(pair(p, r), f64x2.mul(half, pair(slopeP, r)));
    const downL = f64x2.sub(uL, pair(c, i));
    const downR = f64x2.sub(uR, pair(c, r));
    const upL = f64x2.add(uL, pair(c, i));
    const upR = f64x2.add(uR, pair(c, r));
    const sL = f64x2.mul(half, f64x2.sub(f64x2.add(downL, downR), f64x2.abs(f64x2.sub(downL, downR))));
    const sR = f64x2.mul(half, f64x2.add(f64x2.add(upL, upR), f64x2.abs(f64x2.sub(upL, upR))));
    const kL = f64x2.mul(rhoL, f64x2.sub(sL, uL));
    const kR = f64x2.mul(rhoR, f64x2.sub(sR, uR));
    const sM = f64x2.div(
      f64x2.sub(f64x2.add(f64x2.sub(pR, pL), f64x2.mul(kL, uL)), f64x2.mul(kR, uR)),
      f64x2.sub(kL, kR),
    );
    const left = f64x2.ge(sM, zero);
    const db = v128.bitselect(f64x2.mul(half, pair(slopeB, i)), f64x2.neg(f64x2.mul(half, pair(slopeB, r))), left);
    const rhoF = v128.bitselect(rhoL, rhoR, left);
    const uF = v128.bitselect(uL, uR, left);
    const pF = v128.bitselect(pL, pR, left);
    const TF = f64x2.div(pF, f64x2.mul(rhoF, f64x2.add(v128.bitselect(pair(R, i), pair(R, r), left), f64x2.mul(dR, db))));
    const warmer = f64x2.sub(TF, v128.bitselect(pair(T, i), pair(T, r), left));
    const eF = f64x2.add(
      f64x2.add(
        v128.bitselect(pair(e, i), pair(e, r), left),
        f64x2.mul(v128.bitselect(pair(cv, i), pair(cv, r), left), warmer),
      ),
      f64x2.mul(v128.bitselect(pair(eBurn, i), pair(eBurn, r), left), db),
    );
    const E = f64x2.add(eF, f64x2.mul(half, f64x2.mul(uF, uF)));
    const sF = v128.bitselect(sL, sR, left);
    const k = v128.bitselect(kL, kR, left);
    const w = v128.and(sF, v128.bitselect(f64x2.lt(sL, zero), f64x2.gt(sR, zero), left));
    const rhoS = f64x2.div(k, f64x2.sub(sF, sM));
    const A = pair(face, r);
    const flow = f64x2.mul(rhoF, uF);
    const mass = f64x2.mul(A, f64x2.add(flow, f64x2.mul(w, f64x2.sub(rhoS, rhoF))));
    const force = f64x2.add(
      f64x2.add(f64x2.mul(flow, uF), pF),
      f64x2.mul(w, f64x2.sub(f64x2.mul(rhoS, sM), flow)),
    );
    const ES = f64x2.add(E, f64x2.mul(f64x2.sub(sM, uF), f64x2.add(sM, f64x2.div(pF, k))));
    const energy = f64x2.add(
      f64x2.add(f64x2.mul(flow, E), f64x2.mul(pF, uF)),
      f64x2.mul(w, f64x2.sub(f64x2.mul(rhoS, ES), f64x2.mul(rhoF, E))),
    );
    putPair(F0, r, mass);
    putPair(F1, r, f64x2.mul(A, force));
    putPair(F2, r, f64x2.mul(A, energy));
    putPair(F3, r, f64x2.mul(mass, f64x2.add(v128.bitselect(pair(b, i), pair(b, r), left), db)));
  }
  put(F0, 0, get(block, 12));
  put(F1, 0, get(block, 13));
  put(F2, 0, get(block, 14));
  put(F3, 0, get(block, 15));
  put(F0, n, get(block, 16));
  put(F1, n, get(block, 17));
  put(F2, n, get(block, 18));
  put(F3, n, get(block, 19));
  let heat = 0.0;
  for (let i = 0; i < n; i++) {
    const ui = get(u, i);
    const shear = 0.5 * fanning * get(rho, i) * abs(ui) * get(wallArea, i);
    const q = heatMultiplier * shear * (get(cv, i) + get(R, i)) * (wallTemperature - get(T, i));
    heat += q;
    const pushed = get(F1, i) + get(p, i) * (get(face, i + 1) - get(face, i)) - shear * ui;
    put(d, i, get(d, i) + (get(F0, i) - get(F0, i + 1)));
    put(d + s, i, get(d + s, i) + (pushed - get(F1, i + 1)));
    put(d + 2 * s, i, get(d + 2 * s, i) + (get(F2, i) + q - get(F2, i + 1)));
    put(d + 3 * s, i, get(d + 3 * s, i) + (get(F3, i) - get(F3, i + 1)));
  }
  put(d, 4 * n, get(d, 4 * n) + heat);
}

/** Raises the number at `rate` to the fastest rate of `count` ducts: signal speed over cell length. */
export function raiseDucts(list: usize, count: i32, rate: usize): void {
  for (let j = 0; j < count; j++) {
    const block = <usize>load<i32>(list + (<usize>j << 3));
    const n = <i32>get(block, 10);
    const u = block + ((HEAD + n) << 3);
    const c = block + ((HEAD + 7 * n) << 3);
    let most = 0.0;
    for (let i = 0; i < n; i++) {
      const s = abs(get(u, i)) + get(c, i);
      if (s > most) most = s;
    }
    const fastest = most / get(block, 11);
    if (fastest > get(rate, 0)) put(rate, 0, fastest);
  }
}

/** Whether pressure and sound speed of all cells of `count` ducts are those of a gas. */
export function areDuctsSound(list: usize, count: i32): bool {
  for (let j = 0; j < count; j++) {
    const block = <usize>load<i32>(list + (<usize>j << 3));
    const n = <i32>get(block, 10);
    const p = block + ((HEAD + 2 * n) << 3);
    const c = block + ((HEAD + 7 * n) << 3);
    for (let i = 0; i < n; i++) if (!(get(p, i) > 0 && get(c, i) > 0)) return false;
  }
  return true;
}
