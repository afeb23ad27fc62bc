// Sixteen runs, side by side, vectorised by hand: what src/athwart/plant/lanes.py is measured against. The same steps in the same
// order for a task that has no lines, no quay and one thruster, in groups of WIDTH: eight doubles fill a register of 512 bits.
// benchmarks/motion.py compiles it for the machine it runs on and compares the results before it measures.

#include <cmath>
#include <cstdint>

namespace {

constexpr int LANES = 16, HISTORY = 64;
#ifndef WIDTH
#define WIDTH 8
#endif
typedef double V __attribute__((vector_size(WIDTH * sizeof(double))));
typedef std::int64_t M __attribute__((vector_size(WIDTH * sizeof(double))));
typedef std::uint64_t W __attribute__((vector_size(WIDTH * sizeof(double))));

// places as in lanes.py
enum Hull { SURGE, SWAY, TURNING, CROSS, MUNK, DAMP_U, DAMP_V, DAMP_R, DRAG_U, HALF_RHO };
enum Unit { PLACE, TO_STARBOARD, TO_PORT, JET, KEEP, REVERSAL, CONTROL, STEPS, POD, AMPERES, RUN_TIME };
enum Task {
  DURATION, STEP, MODE, ENDS, LINE_PLACE, LINE_STIFFNESS, LINE_DAMPING, FENDER, WAY, ENGINE_MOST, ENGINE_GAIN, GOAL_HEADING,
  GOAL_OFFSET, GOAL_RATE, GOAL_SPEED, LIMIT_HEADING, LIMIT_OFFSET, GRACE, BOW_END, STERN_END, CHARGE, OUTSIDE, CHARGE_AFT
};
enum Run {
  WIND, KEEP_0, KEEP_1, KEEP_2, DRIVE_0, DRIVE_1, DRIVE_2, BEGIN_0, BEGIN_1, BEGIN_2, WIND_X, WIND_Y, CURRENT_X, CURRENT_Y, DRAG,
  WINDAGE, LEVER, BOW_FACTOR, STERN_FACTOR, DELAY, BAND, LOOK, GAIN, GAIN_RATE, DRIVER, WRONG, HEADING, COS_0, SIN_0, AHEAD_0,
  SIDE_0, OFFSET_0, RUN_FACTOR, CHARGE_FACTOR, SPEED, RATE_0, DRIVER_AFT
};
enum Result {
  SUCCESS, CAUSE, ENDED, BOW_ON, STERN_ON, BOW_CHARGE, WORST_OFFSET, WORST_HEADING, END_HEADING, END_OFFSET, FULL, STERN_CHARGE
};

inline V all(double x) { return V{} + x; }
inline V size(V x) { return x < 0.0 ? -x : x; }
inline V larger(V a, V b) { return a > b ? a : b; }
inline V smaller(V a, V b) { return a < b ? a : b; }
inline V root(V x) {
  V out;
  for (int i = 0; i < WIDTH; ++i) out[i] = __builtin_sqrt(x[i]);
  return out;
}
inline V load(const double *rows, int row) {
  V out;
  __builtin_memcpy(&out, rows + row * LANES, sizeof(V));
  return out;
}
inline V third(W a) {  // 21 bits to a deviate of variance one
  V out;
  for (int i = 0; i < WIDTH; ++i) out[i] = (double(std::int32_t(a[i] & 0x1FFFFF)) / 2097152.0 - 0.5) * 3.4641016151377544;
  return out;
}

}  // namespace

static void group(const double *run, const std::uint64_t *seeds, const double *hull, const double *node_x, const double *node_c,
                      int nodes, const double *wind_x, const double *wind_y, const double *wind_n, int terms, const double *losses,
                      int table, const double *bow, const double *task, double *result) {
  const double dt = task[STEP];
  const int count = int(task[DURATION] / dt + 0.5);
  V u = load(run, AHEAD_0), v = load(run, SIDE_0), r = load(run, RATE_0), th = load(run, HEADING), c = load(run, COS_0),
    n = load(run, SIN_0), x{}, y = load(run, OFFSET_0), g0 = load(run, BEGIN_0), g1 = load(run, BEGIN_1), g2 = load(run, BEGIN_2);
  V thrust{}, waits{}, intent{}, lever{}, alive = all(1.0), held{}, pressed{}, busy{}, learnt{}, sense{}, first = all(-1.0), au{}, av{};
  V success = all(1.0), cause{}, ended = all(task[DURATION]), on{}, charge{}, worst_offset{}, worst_heading{}, end_heading{}, full_time{};
  static thread_local double history[HISTORY][WIDTH];
  W z;
  __builtin_memcpy(&z, seeds, sizeof(W));
  const V wind = load(run, WIND), k0 = load(run, KEEP_0), k1 = load(run, KEEP_1), k2 = load(run, KEEP_2), d0 = load(run, DRIVE_0),
          d1 = load(run, DRIVE_1), d2 = load(run, DRIVE_2), wx0 = load(run, WIND_X), wy0 = load(run, WIND_Y), cx0 = load(run, CURRENT_X),
          cy0 = load(run, CURRENT_Y), drag = load(run, DRAG), windage = load(run, WINDAGE), arm = load(run, LEVER),
          factor = load(run, BOW_FACTOR), band = load(run, BAND), look = load(run, LOOK), gain = load(run, GAIN),
          gain_rate = load(run, GAIN_RATE), wrong = load(run, WRONG), run_factor = load(run, RUN_FACTOR),
          charge_factor = load(run, CHARGE_FACTOR), kind = load(run, DRIVER);
  const double whole = hull[SWAY] * hull[TURNING] - hull[CROSS] * hull[CROSS];
  const double m = hull[SURGE], my = hull[TURNING] / whole, mn = hull[SWAY] / whole, mc = hull[CROSS] / whole;

  auto accelerate = [&](V pu, V pv, V pr, V ahead, V side, V yaw, V &fu, V &fv, V &fr) {
    V sum_y{}, sum_n{};
    for (int j = 0; j < nodes; ++j) {
      V w = pv + node_x[j] * pr;
      w = w * size(w);
      sum_y += node_c[j] * w;
      sum_n += node_c[j] * node_x[j] * w;
    }
    V a = ahead - drag * hull[DRAG_U] * pu * size(pu) - hull[DAMP_U] * pu + hull[SWAY] * pv * pr + hull[CROSS] * pr * pr;
    V b = side - drag * hull[HALF_RHO] * sum_y - hull[DAMP_V] * pv - m * pu * pr;
    V e = yaw - drag * hull[HALF_RHO] * sum_n - hull[DAMP_R] * pr - hull[MUNK] * pu * pv - hull[CROSS] * pu * pr;
    fu = a / m;
    fv = my * b - mc * e;
    fr = mn * e - mc * b;
  };

  for (int k = 0; k < count; ++k) {
    const double time = k * dt;
    const M judged = (x >= task[OUTSIDE]) & (time >= task[GRACE] ? M{} - 1 : M{});
    // judged: this task keeps a heading, so places do not count
    V turned = size(th);
    M inside = judged, living = alive > 0.0;
    worst_heading = (living & inside) ? larger(worst_heading, turned) : worst_heading;
    M lost = inside & (turned > task[LIMIT_HEADING]);
    M good = (turned <= task[GOAL_HEADING]) & (size(r) <= task[GOAL_RATE]);
    held = good ? held + dt : V{};
    M hot = on > bow[RUN_TIME] * run_factor, empty = charge > task[CHARGE] * charge_factor;
    V why = busy > 0.6 ? all(5.0) : all(4.0);
    why = size(pressed) > 0.6 ? all(1.0) : why;
    why = empty ? all(3.0) : why;
    why = hot ? all(2.0) : why;
    M now = (hot | empty | lost) & living;
    success = now ? V{} : success;
    cause = now ? why : cause;
    ended = now ? all(time) : ended;
    end_heading = living ? th : end_heading;
    alive = now ? V{} : alive;
    double any = 0.0;
    for (int i = 0; i < WIDTH; ++i) any += alive[i];
    if (any == 0.0) break;
    // decides
    V error = bow[PLACE] * th, rate = bow[PLACE] * r;
    V coming = error + look * rate, low = 0.4 * band;
    V minus = coming > (intent < 0.0 ? low : band) ? all(1.0) : V{};
    V plus = coming < -(intent > 0.0 ? low : band) ? all(1.0) : V{};
    V pull = gain * error, more = smaller(all(1.0), larger(all(-1.0), learnt + pull * (dt / 15.0)));
    V wish = kind == 0.0 ? plus - minus : -(pull + gain_rate * rate + learnt);
    learnt = ((kind == 0.0) | (size(pull) >= 1.0)) ? learnt : more;
    wish = smaller(all(1.0), larger(all(-1.0), wish));
    V amount = size(wish), sign = wish >= 0.0 ? all(1.0) : all(-1.0);
    if (bow[CONTROL] == 0.0) {
      intent = amount < 0.5 ? V{} : sign;
    } else if (bow[CONTROL] == 1.0) {
      V steps;
      for (int i = 0; i < WIDTH; ++i) steps[i] = __builtin_floor(amount[i] * bow[STEPS] + 0.5);
      intent = sign * steps / bow[STEPS];
    } else {
      intent = wish;
    }
    __builtin_memcpy(history[k % HISTORY], &intent, sizeof(V));
    for (int i = 0; i < WIDTH; ++i) {
      const int then = k - int(run[DELAY * LANES + i]);
      lever[i] = then >= 0 ? history[then % HISTORY][i] : 0.0;
    }
    first = ((first < 0.0) & (lever != 0.0)) ? all(double(k)) : first;
    lever = ((first >= 0.0) & (double(k) - first < wrong)) ? -lever : lever;
    // follows
    V target = factor * lever * (lever >= 0.0 ? all(bow[TO_STARBOARD]) : all(bow[TO_PORT]));
    waits = ((target * sense < 0.0) & (size(thrust) > 1.0)) ? all(bow[REVERSAL]) : waits;
    sense = target > 0.0 ? all(1.0) : target < 0.0 ? all(-1.0) : sense;
    target = waits > 0.0 ? V{} : target;
    waits = waits > 0.0 ? waits - dt : waits;
    thrust = target + (thrust - target) * bow[KEEP];
    V used = size(lever);
    on += alive * dt * used;
    charge += alive * dt * bow[AMPERES] * used * root(used);
    V full = used > 0.95 ? all(1.0) : V{};
    full_time += alive * dt * full;
    busy += (full - busy) * (dt / 3.0);
    pressed += ((used > 0.95 ? lever : V{}) - pressed) * (dt / 3.0);
    // gust
    z ^= z << 13;
    z ^= z >> 7;
    z ^= z << 17;
    g0 = k0 * g0 + d0 * third(z);
    g1 = k1 * g1 + d1 * third(z >> 21);
    g2 = k2 * g2 + d2 * third(z >> 42);
    V blow = larger(V{}, wind + g0 + g1 + g2);
    // felt in the middle of the step
    V turn = 0.5 * dt * r, square = 0.5 * turn * turn;
    V cm = c - turn * n - square * c, nm = n + turn * c - square * n;
    V um = u + 0.5 * dt * au, vm = v + 0.5 * dt * av;
    V fx = blow * wx0 + cx0, fy = blow * wy0 + cy0;
    V bx = fx * cm + fy * nm + um, by = fy * cm - fx * nm + vm;
    V felt = root(bx * bx + by * by) + 1e-9;
    V q = felt * felt * windage, wc = bx / felt, ws = by / felt;
    V c0 = all(1.0), c1 = wc, s0{}, s1 = ws;
    V lx = wind_x[0] + wind_x[1] * wc, ly = wind_y[1] * ws, ln = wind_n[1] * ws;
    for (int j = 2; j < terms; ++j) {
      V c2 = 2.0 * wc * c1 - c0, s2 = 2.0 * wc * s1 - s0;
      c0 = c1, c1 = c2, s0 = s1, s1 = s2;
      lx += wind_x[j] * c2;
      ly += wind_y[j] * s2;
      ln += wind_n[j] * s2;
    }
    V left;
    for (int i = 0; i < WIDTH; ++i) {
      double at = __builtin_fabs(um[i]) / bow[JET] * 100.0;
      int low_at = int(at) < table - 2 ? int(at) : table - 2;
      double share = at - low_at < 1.0 ? at - low_at : 1.0;
      double kept = losses[low_at] + share * (losses[low_at + 1] - losses[low_at]);
      left[i] = bow[POD] > 0.0 ? 1.0 - 0.5 * (1.0 - kept) : kept;
    }
    V ahead = q * lx, side = q * ly + thrust * (1.0 - 0.7 * (1.0 - left)), yaw = q * (ln + arm * ly) + thrust * bow[PLACE] * left;
    // Heun
    V au1, av1, ar1, au2, av2, ar2;
    accelerate(u, v, r, ahead, side, yaw, au1, av1, ar1);
    accelerate(u + dt * au1, v + dt * av1, r + dt * ar1, ahead, side, yaw, au2, av2, ar2);
    au = 0.5 * (au1 + au2), av = 0.5 * (av1 + av2);
    V un = u + dt * au, vn = v + dt * av, rn = r + dt * 0.5 * (ar1 + ar2);
    V turned_by = 0.5 * dt * (r + rn), h = 0.5 * turned_by, h2 = h * h;
    V sh = h * (1.0 - h2 / 6.0 * (1.0 - h2 / 20.0)), ch = 1.0 - h2 / 2.0 * (1.0 - h2 / 12.0 * (1.0 - h2 / 30.0));
    V ca = c * ch - n * sh, na = n * ch + c * sh, ua = 0.5 * (u + un), va = 0.5 * (v + vn);
    x += dt * (ua * ca - va * na + cx0);
    y += dt * (ua * na + va * ca + cy0);
    V ce = ca * ch - na * sh, ne = na * ch + ca * sh, fix = 1.5 - 0.5 * (ce * ce + ne * ne);
    c = ce * fix, n = ne * fix;
    th += turned_by;
    u = un, v = vn, r = rn;
  }
  V share = full_time / larger(ended, all(dt));
  const V rows[] = {success, cause, ended, on, V{}, charge, worst_offset, worst_heading, end_heading, V{}, share, V{}};
  for (int row = 0; row < 12; ++row) __builtin_memcpy(result + row * LANES, &rows[row], sizeof(V));
}

extern "C" void block(const double *run, const std::uint64_t *seeds, const double *hull, const double *node_x, const double *node_c,
                      int nodes, const double *wind_x, const double *wind_y, const double *wind_n, int terms, const double *losses,
                      int table, const double *bow, const double *task, double *result) {
  for (int at = 0; at < LANES; at += WIDTH)
    group(run + at, seeds + at, hull, node_x, node_c, nodes, wind_x, wind_y, wind_n, terms, losses, table, bow, task, result + at);
}
