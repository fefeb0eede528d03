/** Estimates that are words, or places and orders: both sides of each limit. */
import { expect, it } from 'vitest';
import * as cam from '../../src/reading/defaults/cam.ts';
import * as chamber from '../../src/reading/defaults/chamber.ts';
import * as charge from '../../src/reading/defaults/charge.ts';
import * as firing from '../../src/reading/defaults/firing.ts';
import { fuelName } from '../../src/reading/defaults/fuel.ts';
import * as manifold from '../../src/reading/defaults/manifold.ts';
import * as metering from '../../src/reading/defaults/metering.ts';
import * as outlet from '../../src/reading/defaults/outlet.ts';
import * as valves from '../../src/reading/defaults/valves.ts';
import * as valvetrain from '../../src/reading/defaults/valvetrain.ts';

/** A V8 about which nothing more is said. */
const eight = (rpm: number) => ({ cylinders: 8, isV: true, isPlain: true, ratedSpeed: () => rpm });

type Choice = readonly [what: string, found: () => unknown, word: unknown];

const WORDS: readonly Choice[] = [
  ['lifter that a lash makes solid', () => cam.lifter(2, 0.1e-3, undefined).value, 'solid-flat'],
  ['lifter with a lash of none', () => cam.lifter(2, 0, undefined).value, 'hydraulic-flat'],
  ['lifter of two valves rated at 7000 rpm', () => cam.lifter(2, undefined, 7000).value, 'hydraulic-flat'],
  ['lifter of two valves rated above', () => cam.lifter(2, undefined, 7001).value, 'solid-flat'],
  ['lifter of three valves', () => cam.lifter(3, undefined, undefined).value, 'solid-flat'],
  ['shape of two valves', () => chamber.chamberShape(2).value, 'wedge'],
  ['shape of three', () => chamber.chamberShape(3).value, 'pent-roof'],
  ['plug of a pent roof', () => chamber.plugPlace('pent-roof').value, 'central'],
  ['plug of a wedge', () => chamber.plugPlace('wedge').value, 'side'],
  [
    'floor of a dual plane',
    () => charge.manifoldHeat('carburetor', 'dual-plane', 'performance').value,
    'exhaust',
  ],
  [
    'floor of a road car',
    () => charge.manifoldHeat('carburetor', 'single-plane', 'production').value,
    'exhaust',
  ],
  [
    'floor of a race car',
    () => charge.manifoldHeat('carburetor', 'single-plane', 'performance').value,
    'none',
  ],
  ['floor with injectors', () => charge.manifoldHeat('port', 'dual-plane', 'production').value, 'none'],
  ...(
    [
      [9, 'pump-87'],
      [9.01, 'pump-93'],
      [10.8, 'pump-93'],
      [11, 'race-100'],
      [12, 'race-100'],
      [14, 'race-110'],
      [14.1, 'race-116'],
      [20, 'race-116'],
    ] as const
  ).map(([compression, fuel]): Choice => [`fuel at ${compression}`, () => fuelName(compression).value, fuel]),
  ['induction of two valves', () => metering.inductionKind(2).value, 'carburetor'],
  ['induction of three', () => metering.inductionKind(3).value, 'throttle'],
  ['manifold of a V8', () => manifold.manifoldStyle('carburetor', eight(6500)).value, 'dual-plane'],
  ['manifold of a fast V8', () => manifold.manifoldStyle('carburetor', eight(6550)).value, 'single-plane'],
  [
    'manifold of eight in line',
    () => manifold.manifoldStyle('carburetor', { ...eight(5000), isV: false }).value,
    'single-plane',
  ],
  [
    'manifold of a V6',
    () => manifold.manifoldStyle('carburetor', { ...eight(5000), cylinders: 6 }).value,
    'single-plane',
  ],
  ['manifold behind a throttle', () => manifold.manifoldStyle('throttle', eight(5000)).value, 'long-runner'],
  [
    'manifold of a single',
    () => manifold.manifoldStyle('throttle', { ...eight(5000), cylinders: 1 }).value,
    'individual-throttles',
  ],
  [
    'manifold of a single with a plenum',
    () => manifold.manifoldStyle('throttle', { ...eight(5000), cylinders: 1, isPlain: false }).value,
    'long-runner',
  ],
  ['outlet of headers', () => outlet.muffler('headers').value, 'open'],
  ['outlet of a cast manifold', () => outlet.muffler('cast').value, 'chambered'],
  ['valvetrain of two valves', () => valvetrain.valvetrainType(2).value, 'pushrod'],
  ['valvetrain of three', () => valvetrain.valvetrainType(3).value, 'direct-acting'],
  [
    'what rubs with rollers',
    () => valvetrain.frictionValvetrain('pushrod', 'hydraulic-roller').value,
    'roller-lifter',
  ],
  [
    'what rubs with flat lifters',
    () => valvetrain.frictionValvetrain('pushrod', 'solid-flat').value,
    'flat-tappet',
  ],
  [
    'what rubs overhead',
    () => valvetrain.frictionValvetrain('finger-follower', 'solid-flat').value,
    'finger-follower',
  ],
  ['bearings in the block of a V8', () => valvetrain.bearingsOfCamshaft('pushrod', 8, 2), 5],
  ['bearings over a bank of a V8', () => valvetrain.bearingsOfCamshaft('rocker-arm', 8, 2), 5],
  ['bearings over a four', () => valvetrain.bearingsOfCamshaft('rocker-arm', 4, 1), 5],
  ['bearings in the block of a four', () => valvetrain.bearingsOfCamshaft('pushrod', 4, 1), 3],
  ['valves of five', () => valves.splitValves(5), { intake: 3, exhaust: 2 }],
  ['layout of six', () => firing.layout(6).value, 'inline'],
  ['layout of seven', () => firing.layout(7).value, 'v'],
  // Orders as shops and handbooks print them.
  ['order of three in line', () => firing.usualFiringOrder(3, 'inline'), [1, 3, 2]],
  ['order of four in line', () => firing.usualFiringOrder(4, 'inline'), [1, 3, 4, 2]],
  ['order of five in line', () => firing.usualFiringOrder(5, 'inline'), [1, 2, 4, 5, 3]],
  ['order of six in line', () => firing.usualFiringOrder(6, 'inline'), [1, 5, 3, 6, 2, 4]],
  ['order of eight in line', () => firing.usualFiringOrder(8, 'inline'), [1, 6, 2, 5, 8, 3, 7, 4]],
  ['order of a V4', () => firing.usualFiringOrder(4, 'v'), [1, 3, 2, 4]],
  ['order of a V6', () => firing.usualFiringOrder(6, 'v'), [1, 2, 3, 4, 5, 6]],
  ['order of a V8', () => firing.usualFiringOrder(8, 'v'), [1, 8, 4, 3, 6, 5, 7, 2]],
  ['order of a V10', () => firing.usualFiringOrder(10, 'v'), [1, 6, 5, 10, 2, 7, 3, 8, 4, 9]],
  ['order of a V12', () => firing.usualFiringOrder(12, 'v'), [1, 12, 5, 8, 3, 10, 6, 7, 2, 11, 4, 9]],
  ['order of a flat four', () => firing.usualFiringOrder(4, 'flat'), [1, 3, 2, 4]],
  ['order of a flat six', () => firing.usualFiringOrder(6, 'flat'), [1, 6, 2, 4, 3, 5]],
  ['order of nine', () => firing.usualFiringOrder(9, 'v'), null],
  [
    'banks of a V10',
    () => firing.usualBanks(10, 'v'),
    [
      [1, 2, 3, 4, 5],
      [6, 7, 8, 9, 10],
    ],
  ],
  [
    'banks of a V8',
    () => firing.usualBanks(8, 'v'),
    [
      [1, 3, 5, 7],
      [2, 4, 6, 8],
    ],
  ],
  [
    'banks of a flat four',
    () => firing.usualBanks(4, 'flat'),
    [
      [1, 2],
      [3, 4],
    ],
  ],
  ['banks of a single in a V', () => firing.usualBanks(1, 'v'), [[1]]],
  [
    'groups of a six with a cast manifold',
    () => firing.usualGroups([[1, 2, 3, 4, 5, 6]], 'cast'),
    [[1, 2, 3, 4, 5, 6]],
  ],
  [
    'groups of a six with headers',
    () => firing.usualGroups([[1, 2, 3, 4, 5, 6]], 'headers'),
    [
      [1, 2, 3],
      [4, 5, 6],
    ],
  ],
  [
    'pairs of a four',
    () => firing.evenPairs([[1, 2, 3, 4]], [0, 540, 180, 360]),
    [
      [1, 4],
      [2, 3],
    ],
  ],
  ['pairs of three', () => firing.evenPairs([[1, 2, 3]], [0, 480, 240]), [[1, 2], [3]]],
  [
    'pairs of ten, eight at a time',
    () => firing.evenPairs([[1, 2, 3, 4, 5, 6, 7, 8, 9, 10]], [0, 90, 180, 270, 360, 450, 540, 630, 36, 396]),
    [
      [1, 5],
      [2, 6],
      [3, 7],
      [4, 8],
      [9, 10],
    ],
  ],
];

it.each(WORDS)('%s is the usual one', (_what, found, word) => {
  expect(found()).toEqual(word);
});
