/*
 * The cast simulation of src/engine/cast once more, in C, to see what the language costs. Chain, tables and
 * start come from the engine itself (cast.mjs writes them), so that mesh, limits, forces and measures are
 * the same; names follow kernel.ts and forces/, with a loop a force and an array a quantity. Turned over before the
 * water, which is left out but for its factor.
 *
 * Usage: cast FILE FLIGHTS. Prints steps, extension, time of extension (s), and least and median time (ms).
 */
#define _XOPEN_SOURCE 700
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

static const double PER_UNIT = 40, LAST_PLACE = 4000, FORESIGHT = 0.9, SHORTEST_STEP_S = 1e-7;
static const double STRAIGHT = 0.95, UNROLLED = 0.8, PAST = 0.99;

/* In the order in which the file holds them. */
static struct {
  double links, butt, leaderLength, gravity, damping, airDensity, viscosity, dragArea, endTime, wind;
  double longestStep, bendingLimit, tensionShare, largestTurn, tableLength;
} p;
static int links, butt;
static double *length_m, *inverseLength, *waveFactor, *diameter, *inverseMass, *mass, *linkInertia, *hinge,
    *naturalAngle;
static double *startX, *startY, *startVx, *startVy, *startCos, *startSin;
static double *crossTable, *axialTable;
static double *x, *y, *vx, *vy, *ax, *ay, *olderAx, *olderAy, *ux, *uy, *fx, *fy, *tension, *cosine, *sine;
static double *held;
static double *upper, *right, *trial, *crossPower, *axialPower, *bendingPower;
static double now, step, turning, wave, flyPower;

static double *column(void) { return calloc((size_t)links + 2, sizeof(double)); }

static void extrapolate(void) {
  double half = step / 2, fastest = 0;
  for (int k = 0; k <= links; k++) {
    ux[k] = vx[k] + half * ax[k];
    uy[k] = vy[k] + half * ay[k];
    fx[k] = fy[k] = 0;
    if (k == 0) continue;
    double dx = (ux[k] - ux[k - 1]) * inverseLength[k];
    double dy = (uy[k] - uy[k - 1]) * inverseLength[k];
    double square = dx * dx + dy * dy;
    if (square > fastest) fastest = square;
  }
  turning = sqrt(fastest);
}

static void applyGravity(void) {
  for (int k = 1; k <= links; k++) fy[k] -= mass[k] * p.gravity;
}

static void applyLinkInertia(void) {
  double nearX = 2 * ax[0] - olderAx[0], nearY = 2 * ay[0] - olderAy[0], beforeX = 0, beforeY = 0;
  for (int k = 1; k <= butt; k++) {
    double farX = 2 * ax[k] - olderAx[k], farY = 2 * ay[k] - olderAy[k];
    double gx = linkInertia[k] * (farX - nearX), gy = linkInertia[k] * (farY - nearY);
    fx[k - 1] += beforeX - gx;
    fy[k - 1] += beforeY - gy;
    beforeX = gx;
    beforeY = gy;
    nearX = farX;
    nearY = farY;
  }
  fx[butt] += beforeX;
  fy[butt] += beforeY;
}

static inline double readTable(const double *table, double re) {
  double place = sqrt(re) * PER_UNIT;
  int i = place < LAST_PLACE ? (int)place : (int)LAST_PLACE;
  return table[i] + (table[i + 1] - table[i]) * (place - i);
}

static void applyLineDrag(void) {
  double half = (p.airDensity / 4) * p.viscosity, perNu = 1 / p.viscosity;
  double nearX = ux[0], nearY = uy[0], beforeX = 0, beforeY = 0;
  for (int k = 1; k <= links; k++) {
    double farX = ux[k], farY = uy[k], c = cosine[k], s = sine[k];
    double reynolds = diameter[k] * perNu;
    double wx = (nearX + farX) * 0.5 - p.wind, wy = (nearY + farY) * 0.5;
    double along = wx * c + wy * s, across = wy * c - wx * s;
    double factor = half * length_m[k];
    double fAcross = factor * readTable(crossTable, fabs(across) * reynolds) * across;
    double fAlong = factor * M_PI * readTable(axialTable, fabs(along) * reynolds) * along;
    double gx = fAlong * c - fAcross * s, gy = fAlong * s + fAcross * c;
    fx[k - 1] -= beforeX + gx;
    fy[k - 1] -= beforeY + gy;
    crossPower[k] = 2 * fAcross * (across - p.wind * s);
    axialPower[k] = 2 * fAlong * (along + p.wind * c);
    beforeX = gx;
    beforeY = gy;
    nearX = farX;
    nearY = farY;
  }
  fx[links] -= beforeX;
  fy[links] -= beforeY;
}

static void applyFlyDrag(void) {
  double wx = ux[links] - p.wind, wy = uy[links];
  double factor = (p.airDensity / 2) * p.dragArea * sqrt(wx * wx + wy * wy);
  fx[links] -= factor * wx;
  fy[links] -= factor * wy;
  flyPower = factor * (wx * ux[links] + wy * wy);
}

static inline double turnAngle(double s, double c) {
  double half = sqrt(fabs(1 + c) * 0.5 + 1e-30);
  double t = (0.5 * s) / (half * (1 + half));
  double u = t * t, u2 = u * u;
  double low = 1 - 0.3333246309 * u + u2 * (0.1997560832 - 0.1405037559 * u);
  double high = 0.09995454384 - 0.06060975933 * u + u2 * (0.02503543078 - 0.004909846364 * u);
  return 4 * t * (low + u2 * u2 * high);
}

static void applyBending(void) {
  double nearX = ux[1], nearY = uy[1], ca = cosine[1], sa = sine[1], la = inverseLength[1];
  double turnA = ((nearY - uy[0]) * ca - (nearX - ux[0]) * sa) * la;
  double momentA = 0, beforeX = 0, beforeY = 0;
  for (int k = 1; k < links; k++) {
    double farX = ux[k + 1], farY = uy[k + 1];
    double cb = cosine[k + 1], sb = sine[k + 1], lb = inverseLength[k + 1];
    double turnB = ((farY - nearY) * cb - (farX - nearX) * sb) * lb;
    double rate = turnB - turnA;
    double angle = turnAngle(ca * sb - sa * cb, ca * cb + sa * sb);
    double moment = hinge[k] * (angle - naturalAngle[k] + p.damping * rate);
    double couple = (momentA - moment) * la;
    double gx = couple * sa, gy = -couple * ca;
    fx[k - 1] += beforeX - gx;
    fy[k - 1] += beforeY - gy;
    bendingPower[k] = hinge[k] * p.damping * rate * rate;
    beforeX = gx;
    beforeY = gy;
    momentA = moment;
    turnA = turnB;
    ca = cb;
    sa = sb;
    la = lb;
    nearX = farX;
    nearY = farY;
  }
  double couple = momentA * la;
  fx[links - 1] += beforeX - couple * sa;
  fy[links - 1] += beforeY + couple * ca;
  fx[links] += couple * sa;
  fy[links] -= couple * ca;
}

static double solveTensions(double h, double between) {
  double twice = 1 / (2 * h * between), t = tension[1], c = cosine[1], s = sine[1], wa = inverseMass[0];
  double nearX = x[0] + h * (vx[0] + wa * between * (fx[0] + t * c));
  double nearY = y[0] + h * (vy[0] + wa * between * (fy[0] + t * s));
  double cosBefore = 0, sinBefore = 0, upperBefore = 0, rightBefore = 0;
  for (int k = 1; k <= links; k++) {
    double tn = tension[k + 1], cn = cosine[k + 1], sn = sine[k + 1], f = held[k], w = inverseMass[k] * between;
    double wb = inverseMass[k] * f;
    double farX = x[k] + h * f * (vx[k] + w * (fx[k] + tn * cn - t * c));
    double farY = y[k] + h * f * (vy[k] + w * (fy[k] + tn * sn - t * s));
    double dx = farX - nearX, dy = farY - nearY, l = length_m[k];
    double lower = -wa * (dx * cosBefore + dy * sinBefore);
    double pivot = 1 / ((wa + wb) * (dx * c + dy * s) - lower * upperBefore);
    upper[k] = upperBefore = -wb * (dx * cn + dy * sn) * pivot;
    right[k] = rightBefore = ((dx * dx + dy * dy - l * l) * twice - lower * rightBefore) * pivot;
    nearX = farX;
    nearY = farY;
    wa = wb;
    cosBefore = c;
    sinBefore = s;
    t = tn;
    c = cn;
    s = sn;
  }
  double change = 0, most = 0;
  for (int k = links; k >= 1; k--) {
    change = right[k] - upper[k] * change;
    trial[k] = tension[k] + change;
    double square = fabs(trial[k]) * waveFactor[k];
    if (!(square <= most)) most = square;
  }
  return most;
}

static void accept(double h, double between) {
  double perBetween = 1 / between, t = trial[0], c = cosine[0], s = sine[0], nearX = x[0], nearY = y[0];
  for (int k = 0; k <= links; k++) {
    double tn = trial[k + 1], cn = cosine[k + 1], sn = sine[k + 1], push = between * inverseMass[k];
    double newX = held[k] * (vx[k] + push * (fx[k] + tn * cn - t * c));
    double newY = held[k] * (vy[k] + push * (fy[k] + tn * sn - t * s));
    olderAx[k] = ax[k];
    olderAy[k] = ay[k];
    ax[k] = (newX - vx[k]) * perBetween;
    ay[k] = (newY - vy[k]) * perBetween;
    vx[k] = newX;
    vy[k] = newY;
    double farX = x[k] + h * newX, farY = y[k] + h * newY;
    x[k] = farX;
    y[k] = farY;
    double dx = farX - nearX, dy = farY - nearY, inverse = inverseLength[k];
    double scale = inverse * (1.5 - 0.5 * (dx * dx + dy * dy) * inverse * inverse);
    cosine[k] = dx * scale;
    sine[k] = dy * scale;
    tension[k] = t;
    nearX = farX;
    nearY = farY;
    t = tn;
    c = cn;
    s = sn;
  }
  now += h;
  step = h;
}

static int advance(double wanted) {
  double h = fmin(fmin(wanted, p.longestStep), p.bendingLimit);
  h = fmin(h, p.largestTurn / (turning + 1e-15));
  h = fmin(h, (p.tensionShare / wave) * FORESIGHT);
  h = fmin(h, step > 0 ? step * 1.15 : 1e-4);
  for (;;) {
    double between = step > 0 ? (step + h) / 2 : h / 2;
    double most = sqrt(solveTensions(h, between)) + 1e-15;
    double limit = p.tensionShare / most;
    if (h <= limit) {
      wave = most;
      accept(h, between);
      return 1;
    }
    h = isfinite(most) ? limit * 0.8 : h / 4;
    if (!(h > SHORTEST_STEP_S)) return 0;
  }
}

static double extension, timeOfExtension;

static double chord(int *ahead) {
  double dx = x[links] - x[butt], dy = y[links] - y[butt];
  *ahead = dx > 0;
  return sqrt(dx * dx + dy * dy) / p.leaderLength;
}

/* As Watch in runCast.ts does, stopping when straight. Returns the number of steps; -1 for a failure. */
static int fly(void) {
  size_t bytes = ((size_t)links + 2) * sizeof(double);
  double *moving[] = {ax, ay, olderAx, olderAy, tension};
  for (int i = 0; i < 5; i++) memset(moving[i], 0, bytes);
  memcpy(x, startX, bytes);
  memcpy(y, startY, bytes);
  memcpy(vx, startVx, bytes);
  memcpy(vy, startVy, bytes);
  memcpy(cosine, startCos, bytes);
  memcpy(sine, startSin, bytes);
  now = step = extension = timeOfExtension = 0;
  wave = 1e-15;
  int ahead, steps = 0, turned = 0, wasAhead = 0;
  double older = 0, last = chord(&wasAhead), lastTime = 0, lastCos = cosine[links], unrolled = 0;
  while (now < p.endTime - 1e-9) {
    extrapolate();
    applyGravity();
    applyLinkInertia();
    applyLineDrag();
    applyFlyDrag();
    applyBending();
    if (!advance(p.endTime - now) || !isfinite(x[links])) return -1;
    steps++;
    double present = chord(&ahead);
    if (lastCos < 0 && cosine[links] >= 0) turned = 1;
    if (wasAhead && last >= older && last > present && last > extension) {
      extension = last;
      timeOfExtension = lastTime;
    }
    if (extension >= STRAIGHT && unrolled >= UNROLLED && present < extension * PAST && turned) break;
    double forward = 0;
    for (int k = butt + 1; k <= links; k++)
      if (cosine[k] > 0) forward += length_m[k];
    unrolled = fmax(unrolled, forward / p.leaderLength);
    older = last;
    last = present;
    lastTime = now;
    lastCos = cosine[links];
    wasAhead = ahead;
  }
  return steps;
}

static double *part(FILE *file, size_t count) {
  double *values = calloc(count, sizeof(double));
  if (!values || fread(values, sizeof(double), count, file) != count) exit(2);
  return values;
}

static int ascending(const void *a, const void *b) {
  double d = *(const double *)a - *(const double *)b;
  return (d > 0) - (d < 0);
}

int main(int argc, char **argv) {
  FILE *file = argc == 3 ? fopen(argv[1], "rb") : NULL;
  if (!file || fread(&p, sizeof p, 1, file) != 1) return 2;
  links = (int)p.links;
  butt = (int)p.butt;
  double **given[] = {&length_m, &inverseLength, &waveFactor, &diameter, &inverseMass,
                      &mass,     &linkInertia,   &hinge,      &naturalAngle,
                      &startX,   &startY,        &startVx,    &startVy,  &startCos, &startSin};
  for (size_t i = 0; i < sizeof given / sizeof *given; i++) *given[i] = part(file, (size_t)links + 2);
  crossTable = part(file, (size_t)p.tableLength);
  axialTable = part(file, (size_t)p.tableLength);
  fclose(file);
  double **made[] = {&held, &x,  &y,  &vx,      &vy,     &ax,   &ay,    &olderAx, &olderAy, &ux,         &uy,        &fx,
                     &fy, &tension, &cosine, &sine, &upper, &right,   &trial,   &crossPower, &axialPower, &bendingPower};
  for (size_t i = 0; i < sizeof made / sizeof *made; i++) *made[i] = column();
  for (int k = 0; k <= links; k++) held[k] = 1; /* none in the water yet */

  int flights = atoi(argv[2]), steps = fly();
  double *ms = calloc((size_t)flights, sizeof(double));
  for (int i = 0; i < flights; i++) {
    struct timespec from, to;
    clock_gettime(CLOCK_MONOTONIC, &from);
    steps = fly();
    clock_gettime(CLOCK_MONOTONIC, &to);
    ms[i] = (double)(to.tv_sec - from.tv_sec) * 1e3 + (double)(to.tv_nsec - from.tv_nsec) / 1e6;
  }
  qsort(ms, (size_t)flights, sizeof(double), ascending);
  printf("%d %.9f %.9f %.6f %.6f\n", steps, extension, timeOfExtension, ms[0], ms[flights / 2]);
  return steps > 0 ? 0 : 1;
}
