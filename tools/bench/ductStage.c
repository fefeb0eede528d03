/*
 * The stage of a duct as packages/core/src/network/duct.ts has it, in C: what plain code costs on the machine at hand, to set
 * the program's own figure beside. Reads the tables and the state from a file, prints the seconds taken and a sum of the rates,
 * which must be the program's.
 *
 * File: eight-byte numbers in the machine's order: pipes, cells, stages, count, tMin, dT, freshR, burnedR, fanning, wall
 * temperature, heat multiplier; freshU[count], burnedU[count]; then faceArea[cells + 1], volume[cells], cellArea[cells],
 * wallArea[cells] and the state y[4 cells], the same for every pipe.
 */
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

typedef struct {
  int cells;
  double *y, *d, *faceArea, *perVolume, *cellArea, *wallArea;
  double *rho, *u, *uA, *p, *T, *b, *R, *cv, *c, *e, *eBurn, *slope;
} Duct;

static double tMin, dT, freshR, burnedR, fanning, wallTemperature, heatMultiplier;
static double *freshU, *burnedU;
static int count;

static double limited(double back, double fore) {
  double sum = back + fore, mean = 0.5 * sum, most = fabs(sum) - fabs(fabs(back) - fabs(fore));
  return 0.5 * (fabs(mean + most) - fabs(mean - most));
}

static void flattenJump(Duct *q, int i) {
  int n = q->cells;
  double most = fmax(fabs(q->slope[i]) / q->rho[i], fabs(q->slope[2 * n + i]) / q->p[i]);
  if (!(most > 0.4)) return;
  for (int v = 0; v < 4; v++) q->slope[v * n + i] *= 0.4 / most;
}

static void decode(Duct *q) {
  int n = q->cells, last = count - 2;
  double perKelvin = 1 / dT, dR = burnedR - freshR, *y = q->y;
  for (int i = 0; i < n; i++) {
    double m = y[i], im = 1 / m, ui = y[n + i] * im, ei = y[2 * n + i] * im - 0.5 * ui * ui, bi = y[3 * n + i] * im;
    if (bi < 0) bi = 0;
    else if (bi > 1) bi = 1;
    int k = (int)((q->T[i] - tMin) * perKelvin);
    if (k < 0) k = 0;
    else if (k > last) k = last;
    double deltaLo = burnedU[k] - freshU[k], deltaHi = burnedU[k + 1] - freshU[k + 1];
    double lo = freshU[k] + bi * deltaLo, hi = freshU[k + 1] + bi * deltaHi;
    while (ei >= hi && k < last) {
      k++;
      deltaLo = deltaHi;
      deltaHi = burnedU[k + 1] - freshU[k + 1];
      lo = hi;
      hi = freshU[k + 1] + bi * deltaHi;
    }
    while (ei < lo && k > 0) {
      k--;
      deltaHi = deltaLo;
      deltaLo = burnedU[k] - freshU[k];
      hi = lo;
      lo = freshU[k] + bi * deltaLo;
    }
    double perRise = 1 / (hi - lo), f = (ei - lo) * perRise, Ti = tMin + dT * (k + f), Ri = freshR + bi * dR;
    double ri = m * q->perVolume[i], RT = Ri * Ti;
    q->rho[i] = ri;
    q->u[i] = ui;
    q->T[i] = Ti;
    q->b[i] = bi;
    q->R[i] = Ri;
    q->uA[i] = ui * q->cellArea[i];
    q->cv[i] = (hi - lo) * perKelvin;
    q->e[i] = ei;
    q->eBurn[i] = deltaLo + f * (deltaHi - deltaLo);
    q->p[i] = ri * RT;
    q->c[i] = sqrt((1 + Ri * dT * perRise) * RT);
  }
  double *s = q->slope, *columns[4] = {q->rho, q->uA, q->p, q->b};
  for (int v = 0; v < 4; v++) {
    double *x = columns[v], back = x[1] - x[0];
    s[v * n] = back;
    for (int i = 1; i < n - 1; i++) {
      double fore = x[i + 1] - x[i];
      s[v * n + i] = limited(back, fore);
      back = fore;
    }
    s[v * n + n - 1] = back;
  }
  flattenJump(q, 0);
  flattenJump(q, n - 1);
}

/* Both ends are walls: no flow, and the pressure of the end cell. */
static void balance(Duct *q) {
  int n = q->cells;
  double dR = burnedR - freshR, *d = q->d, *s = q->slope;
  double mass = 0, momentum = q->p[0] * q->faceArea[0], energy = 0, burned = 0, heat = 0;
  for (int i = 0; i < n; i++) {
    double shear = 0.5 * fanning * q->rho[i] * fabs(q->u[i]) * q->wallArea[i];
    double taken = heatMultiplier * shear * (q->cv[i] + q->R[i]) * (wallTemperature - q->T[i]);
    heat += taken;
    double massIn = mass, energyIn = energy + taken, burnedIn = burned;
    double momentumIn = momentum + q->p[i] * (q->faceArea[i + 1] - q->faceArea[i]) - shear * q->u[i];
    if (i < n - 1) {
      int r = i + 1;
      double perFace = 1 / q->faceArea[r];
      double rhoL = q->rho[i] + 0.5 * s[i], uL = (q->uA[i] + 0.5 * s[n + i]) * perFace, pL = q->p[i] + 0.5 * s[2 * n + i];
      double rhoR = q->rho[r] - 0.5 * s[r], uR = (q->uA[r] - 0.5 * s[n + r]) * perFace, pR = q->p[r] - 0.5 * s[2 * n + r];
      double sL = fmin(uL - q->c[i], uR - q->c[r]), sR = fmax(uL + q->c[i], uR + q->c[r]);
      double kL = rhoL * (sL - uL), kR = rhoR * (sR - uR), sM = (pR - pL + kL * uL - kR * uR) / (kL - kR);
      int fromLeft = sM >= 0, at = fromLeft ? i : r;
      double db = fromLeft ? 0.5 * s[3 * n + i] : -0.5 * s[3 * n + r];
      double rhoF = fromLeft ? rhoL : rhoR, uF = fromLeft ? uL : uR, pF = fromLeft ? pL : pR;
      double eF = q->e[at] + q->cv[at] * (pF / (rhoF * (q->R[at] + dR * db)) - q->T[at]) + q->eBurn[at] * db;
      double E = eF + 0.5 * uF * uF;
      mass = rhoF * uF;
      momentum = mass * uF + pF;
      energy = mass * E + pF * uF;
      if (fromLeft ? sL < 0 : sR > 0) {
        double w = fromLeft ? sL : sR, k = fromLeft ? kL : kR, rhoS = k / (w - sM);
        mass += w * (rhoS - rhoF);
        momentum += w * (rhoS * sM - rhoF * uF);
        energy += w * (rhoS * (E + (sM - uF) * (sM + pF / k)) - rhoF * E);
      }
      double A = q->faceArea[r];
      mass *= A;
      momentum *= A;
      energy *= A;
      burned = mass * (q->b[at] + db);
    } else {
      mass = 0;
      momentum = q->p[n - 1] * q->faceArea[n];
      energy = 0;
      burned = 0;
    }
    d[i] += massIn - mass;
    d[n + i] += momentumIn - momentum;
    d[2 * n + i] += energyIn - energy;
    d[3 * n + i] += burnedIn - burned;
  }
  d[4 * n] += heat;
}

static double *numbers(FILE *file, int n) {
  double *x = malloc(sizeof(double) * n);
  if (fread(x, sizeof(double), n, file) != (size_t)n) exit(2);
  return x;
}

int main(int argc, char **argv) {
  FILE *file = argc > 1 ? fopen(argv[1], "rb") : NULL;
  if (file == NULL) return 2;
  double *head = numbers(file, 11);
  int pipes = (int)head[0], n = (int)head[1];
  long stages = (long)head[2];
  count = (int)head[3];
  tMin = head[4];
  dT = head[5];
  freshR = head[6];
  burnedR = head[7];
  fanning = head[8];
  wallTemperature = head[9];
  heatMultiplier = head[10];
  freshU = numbers(file, count);
  burnedU = numbers(file, count);
  double *faceArea = numbers(file, n + 1), *volume = numbers(file, n);
  double *cellArea = numbers(file, n), *wallArea = numbers(file, n);
  double *state = numbers(file, 4 * n);
  Duct *ducts = malloc(sizeof(Duct) * pipes);
  for (int j = 0; j < pipes; j++) {
    Duct *q = &ducts[j];
    q->cells = n;
    q->faceArea = faceArea;
    q->cellArea = cellArea;
    q->wallArea = wallArea;
    double **columns[] = {&q->rho, &q->u, &q->uA, &q->p, &q->T, &q->b, &q->R, &q->cv, &q->c, &q->e, &q->eBurn, &q->perVolume};
    for (size_t v = 0; v < sizeof columns / sizeof *columns; v++) *columns[v] = calloc(n, sizeof(double));
    q->slope = calloc(4 * n, sizeof(double));
    q->y = malloc(sizeof(double) * 4 * n);
    q->d = calloc(4 * n + 1, sizeof(double));
    for (int i = 0; i < n; i++) {
      q->perVolume[i] = 1 / volume[i];
      q->T[i] = 400;
    }
    for (int i = 0; i < 4 * n; i++) q->y[i] = state[i];
  }
  struct timespec from, to;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &from);
  for (long k = 0; k < stages; k++)
    for (int j = 0; j < pipes; j++) {
      decode(&ducts[j]);
      balance(&ducts[j]);
    }
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &to);
  double sum = 0;
  for (int i = 0; i < 4 * n + 1; i++) sum += fabs(ducts[0].d[i]);
  printf("%.9f %.17g\n", (to.tv_sec - from.tv_sec) + 1e-9 * (to.tv_nsec - from.tv_nsec), sum);
  return 0;
}
