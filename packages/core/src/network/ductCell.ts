/** A place along a duct as a node: where a branch, a balance tube or the holes of a muffler open into its side. */
import type { Duct } from './duct.ts';
import { FASTEST, type PartGroup, type Site, type StillNode } from './part.ts';
import { SIDE, SIDE_SIZE } from './side.ts';

/** A cell of a duct to which connections may lead. */
export interface DuctCellSpec {
  readonly duct: number;
  /** Distance from the duct's left end [m]. */
  readonly at: number;
  /**
   * A wall with many small holes in place of one opening. What the stream loses to the box through those in front it gets back through
   * those behind; that each exchange cost it its speed would stop it, so that none is counted.
   */
  readonly holes?: boolean;
  /** Whether the stream goes on past the pipe's end, where the place is in its first or last cell. */
  readonly passes?: boolean;
}

/**
 * What opens into the side of a pipe feels the pressure at the wall, which is that of the stream, not of the stream stopped.
 * Gas that leaves through the side takes the stream's momentum and enthalpy along; gas that enters brings its enthalpy and, at right
 * angles, no momentum.
 */
export interface DuctCell extends StillNode {
  readonly duct: Duct;
  readonly cell: number;
  /** See {@link DuctCellSpec}. */
  readonly passes: boolean;
}

export function createDuctCell(
  { at, holes = false, passes = false }: DuctCellSpec,
  { numbers }: Pick<Site, 'numbers'>,
  duct: Duct,
): DuctCell {
  const { cells, offset } = duct;
  const cell = Math.min(cells - 1, Math.max(0, Math.floor(at / duct.dx)));
  return {
    duct,
    cell,
    passes,
    side: numbers(SIDE_SIZE).fill(400),
    offset: offset + cell,
    energyAt: offset + 2 * cells + cell,
    burnedAt: offset + 3 * cells + cell,
    momentumAt: holes ? -1 : offset + cells + cell,
    opening: numbers(1),
  };
}

/**
 * Finds the pressure [Pa] that an opening in the side of a cell feels: the mean of what waves leave at the cell's two faces. Where a branch
 * draws, velocity falls along the cell, and the cell's own pressure lies below that of the pipes on both its sides by the
 * difference times half or a quarter of density and sound speed: a branch that felt it would draw as through a resistance. The first and
 * the last cell have one such face; where the stream goes on past the end of the pipe, the cell's own pressure stands for the other.
 *
 * From the faces to the branch in the middle it is half a cell more of gas that speeds up, {@link fromFaces}. Holes along a wall have a
 * neighbour on either side, so that no pressure has a bend at one of them.
 */
function findPressureBeside({ duct, cell: i, passes, momentumAt, side }: DuctCell): void {
  const { cells: n, p } = duct;
  if (n === 1) {
    side[SIDE.p] = p[0];
    return;
  }
  meetAt(duct, i > 0 ? i - 1 : 0);
  const face = met[0];
  if (i > 0 && i < n - 1) {
    meetAt(duct, i);
    const mean = 0.5 * (face + met[0]);
    side[SIDE.p] = momentumAt >= 0 ? Math.max(0.5 * mean, mean + fromFaces(duct, i)) : mean;
  } else side[SIDE.p] = passes ? 0.5 * (face + p[i]) : face;
}

/**
 * What pressure gains from the faces of cell `i` to its middle [Pa], on straight lines from the cells on either side. Velocity is one on one side
 * of a branch and another on the other, and so is the slope of pressure, which speeds it up. Left out, a branch as wide as the pipe acts as
 * if it were a quarter of a cell shorter.
 */
function fromFaces({ cells: n, p }: Duct, i: number): number {
  if (i < 2 || i > n - 3) return 0;
  return 0.25 * (p[i - 1] - p[i - 2] - (p[i + 2] - p[i + 1]));
}

/** Scratch of {@link findPressureBeside}: a pressure [Pa], written and read within one call, never kept. */
const met = new Float64Array(1);

/** Leaves in `met` the pressure at the face behind cell `i` once the waves from both sides have met there, by linear acoustics. */
function meetAt(duct: Duct, i: number): void {
  const { cells: n, p, u, rho, c, slope, cellArea, faceArea } = duct;
  const k = i + 1;
  const pressures = p[i] + 0.5 * slope[2 * n + i] + (p[k] - 0.5 * slope[2 * n + k]);
  const meeting = u[i] * cellArea[i] + 0.5 * slope[n + i] - (u[k] * cellArea[k] - 0.5 * slope[n + k]);
  met[0] = 0.5 * (pressures + (0.5 * (rho[i] * c[i] + rho[k] * c[k]) * meeting) / faceArea[k]);
}

/** What the kernel has to know of a place, in the order of `tools/kernel/ductCell.as`. */
export function cellNumbers({ duct, cell, passes, momentumAt, side, opening }: DuctCell): number[] {
  const { block, cells, dx, volume } = duct;
  const flags = [Number(passes), Number(momentumAt >= 0)];
  return [block.byteOffset, cell, cells, ...flags, side.byteOffset, opening.byteOffset, dx, volume[cell]];
}

/** To be walked after the ducts, whose decoded columns it reads. */
export function ductCellGroup(places: readonly DuctCell[]): PartGroup {
  return {
    decode() {
      for (const place of places) {
        const { duct, cell: i, side } = place;
        const R = duct.R[i];
        findPressureBeside(place);
        side[SIDE.T] = duct.T[i];
        side[SIDE.R] = R;
        side[SIDE.gamma] = 1 + R / duct.cv[i];
        side[SIDE.b] = duct.b[i];
        side[SIDE.h] = duct.e[i] + R * duct.T[i];
        side[SIDE.rho] = duct.rho[i];
        side[SIDE.w] = duct.u[i];
      }
    },
    // Beside the signals along the pipe, those of the openings fill and empty the cell.
    raiseFastest(fastest) {
      for (const { duct, cell: i, opening } of places) {
        const rate = (Math.abs(duct.u[i]) + duct.c[i]) / duct.dx + (opening[0] * duct.c[i]) / duct.volume[i];
        if (rate > fastest[FASTEST.wave]) fastest[FASTEST.wave] = rate;
      }
    },
  };
}
