/** The parts of a network by kind. */
import type { Copy } from './copiedEnds.ts';
import type { Cylinder } from './cylinder.ts';
import type { Duct } from './duct.ts';
import type { DuctCell } from './ductCell.ts';
import type { Feed } from './feed.ts';
import type { Joint } from './joint.ts';
import type { OpenEnd } from './openEnd.ts';
import type { Orifice } from './orifice.ts';
import type { Reservoir } from './reservoir.ts';
import type { Volume } from './volume.ts';

export interface NetworkParts {
  readonly reservoirs: readonly Reservoir[];
  readonly volumes: readonly Volume[];
  readonly cylinders: readonly Cylinder[];
  readonly ducts: readonly Duct[];
  readonly cells: readonly DuctCell[];
  readonly ends: readonly OpenEnd[];
  readonly joints: readonly Joint[];
  readonly orifices: readonly Orifice[];
  readonly feeds: readonly Feed[];
  readonly copies: readonly Copy[];
}
