#include "window/materials.h"

#include <math.h>

#include "gen/reference.h"
#include "panewright/units.h"

/* Rows of reference/trade/materials.csv and measure.csv by their ids; one that is not there ends the build. */
#define RULE(id) (&pw_ref_trade_materials[pw_ref_trade_materials__##id])
#define MEASURE(id) (&pw_ref_trade_measure[pw_ref_trade_measure__##id])

static const double cubic_inch = PW_INCH * PW_INCH * PW_INCH;

/* Up to a whole step, a hair of rounding noise forgiven. */
static double step_up(double amount, double step) { return ceil(amount / step - 1e-6) * step; }

static double inch_up(double length) { return step_up(length, PW_INCH); }
static double ounce_up(double volume) { return step_up(volume, 0.1 * PW_FLUID_OUNCE); }

/* ---------------------------------------------------------------- outside */

static void seal(const pw_install *p, pw_materials *m)
{
  m->seal_length = p->joint_width > 0.0 ? inch_up(p->bead_length) : 0.0;
  m->seal_width = p->joint_width;
  m->seal_depth = p->joint_depth;
  m->seal_class = p->joint_class;
  m->seal_volume = ounce_up(m->seal_length * p->joint_width * p->joint_depth);
  m->stucco_length = inch_up(p->bead_length);
  m->stucco_width = p->joint_stucco;
  m->stucco_depth = fmin(fmax(0.5 * p->joint_stucco, MEASURE(S4)->low * PW_INCH),
                         MEASURE(S4)->high * PW_INCH);
  m->stucco_volume = ounce_up(m->stucco_length * m->stucco_width * m->stucco_depth);
  m->tape = 2.0 * m->seal_length; /* MA15 */
  /* MA3; a rod far wider than the joint (S5) does not go in: a bond breaker then */
  double rod = fmax(p->backer, RULE(MA3)->low * PW_INCH);
  if (rod <= MEASURE(S5)->high * p->joint_width + 1e-9) {
    m->rod = rod;
    m->rod_length = m->seal_length;
  }
}

/* ---------------------------------------------------------------- inside */

static void piece(double side, int at, pw_materials *m)
{
  if (side <= 0.0 || m->n_trim == PW_TRIM_MAX) return;
  m->trim[m->n_trim++] =
      (pw_trim){at, step_up(side + RULE(MA8)->typical * PW_INCH, PW_INCH / 16.0)};
}

/* Along the edges of an outline that is no rectangle. */
static void shaped_trim(const pw_bounds *opening, pw_materials *m)
{
  static const int side_of[] = {[PW_EDGE_BASE] = PW_BOTTOM,
                                [PW_EDGE_LEG_LEFT] = PW_LEFT,
                                [PW_EDGE_LEG_RIGHT] = PW_RIGHT,
                                [PW_EDGE_OTHER] = PW_TOP};
  pw_outline size;
  double curved = 0.0;
  if (pw_shape_outline(opening, &size, NULL) != PW_OK) return;
  for (size_t i = 0; i < opening->n; i++)
    if (opening->edge[i].arc)
      curved += size.edge[i];
    else if (opening->edge[i].role != PW_EDGE_TANGENT)
      piece(size.edge[i], side_of[opening->edge[i].role], m);
  m->trim_curved = inch_up(curved);
}

static void inside(const pw_opening *o, const pw_fit *fit, const pw_package *package,
                   pw_materials *m)
{
  pw_bounds opening, bare, order;
  pw_outline ordered;
  double area = fit->pocket_width * fit->pocket_height - fit->order_area;
  if (fit->shape.kind == PW_SHAPE_RECTANGLE) {
    piece(fit->opening_height, PW_LEFT, m);
    piece(fit->opening_height, PW_RIGHT, m);
    if (!pw_operator_is_door(o->operator_insert)) piece(fit->opening_width, PW_BOTTOM, m);
    piece(fit->opening_width, PW_TOP, m);
  } else if (pw_fit_outlines(fit, &opening, &bare, &order) == PW_OK) {
    shaped_trim(&opening, m);
    area =
        pw_shape_outline(&order, &ordered, NULL) == PW_OK ? fit->gap * ordered.perimeter : 0.0;
  }
  if (package->filling[0] == 'f') { /* foam, else air */
    m->foam_depth = RULE(MA5)->typical * PW_INCH;
    m->foam_volume = step_up(fmax(area, 0.0) * m->foam_depth, cubic_inch);
  }
  double run = m->trim_curved;
  for (size_t i = 0; i < m->n_trim; i++)
    run += m->trim[i].length;
  m->caulk_leg = RULE(MA11)->typical * PW_INCH;
  m->caulk_length = inch_up(2.0 * run);
  m->caulk_volume = ounce_up(m->caulk_length * 0.5 * m->caulk_leg * m->caulk_leg);
}

/* ---------------------------------------------------------------- shims */

size_t pw_shim_places(double side, double e, double spacing, const double fixed[],
                      size_t n_fixed, double place[PW_SHIMS_MAX])
{
  size_t n = 0;
  if (!(side > 0.0)) return 0;
  if (side <= 2.0 * e) {
    place[0] = 0.5 * side;
    return 1;
  }
  double from = e;
  place[n++] = e;
  for (size_t i = 0; i <= n_fixed; i++) {
    double to = i < n_fixed ? fixed[i] : side - e;
    if (!(to > from + 1e-9 && to <= side - e + 1e-9)) continue;
    double between = ceil((to - from) / spacing - 1e-9);
    for (size_t k = 1; (double)k <= between && n < PW_SHIMS_MAX; k++)
      place[n++] = (double)k < between ? from + (to - from) * (double)k / between : to;
    from = to;
  }
  return n;
}

/* Places of one side with its fixed ones. */
static size_t along(double side, const double fixed[], size_t n_fixed,
                    double place[PW_SHIMS_MAX])
{
  return pw_shim_places(side, RULE(MA13)->typical * PW_INCH, MEASURE(W3)->high * PW_INCH, fixed,
                        n_fixed, place);
}

/* Left, right, bottom, top of the unit as ordered: what is straight of it. */
static void sides_of(const pw_fit *fit, double side[4])
{
  pw_bounds opening, bare, order;
  pw_outline size;
  if (fit->shape.kind == PW_SHAPE_RECTANGLE) {
    side[PW_LEFT] = side[PW_RIGHT] = fit->order_height;
    side[PW_BOTTOM] = side[PW_TOP] = fit->order_width;
    return;
  }
  for (int s = 0; s < 4; s++)
    side[s] = 0.0;
  if (pw_fit_outlines(fit, &opening, &bare, &order) != PW_OK ||
      pw_shape_outline(&order, &size, NULL) != PW_OK)
    return;
  for (size_t i = 0; i < order.n; i++)
    if (!order.edge[i].arc && order.edge[i].role <= PW_EDGE_LEG_RIGHT)
      side[order.edge[i].role == PW_EDGE_BASE       ? PW_BOTTOM
           : order.edge[i].role == PW_EDGE_LEG_LEFT ? PW_LEFT
                                                    : PW_RIGHT] += size.edge[i];
}

static void shims(const pw_opening *o, const pw_fit *fit, pw_materials *m)
{
  const pw_lites *w = &fit->insert;
  double side[4], sill[PW_LITES_MAX], jamb = 0.0, head[PW_SHIMS_MAX];
  size_t n_sill = 0, n_jamb = pw_operator_opens(o->operator_insert) ? 1 : 0;
  sides_of(fit, side);
  if (w->n_meeting && w->meeting_upright)
    for (size_t i = 0; i + 1 < w->n_lite; i++)
      sill[n_sill++] = w->lite[i].x + w->lite[i].width + 0.5 * w->meeting_width;
  /* the lock: of a hung window at its meeting rail, else at half the height */
  if (n_jamb)
    jamb = w->n_meeting && !w->meeting_upright
               ? w->lite[0].y + w->lite[0].height + 0.5 * w->meeting_width
               : 0.5 * fit->order_height;
  m->n_shim[PW_LEFT] = along(side[PW_LEFT], &jamb, n_jamb, m->shim[PW_LEFT]);
  m->n_shim[PW_RIGHT] = along(side[PW_RIGHT], &jamb, n_jamb, m->shim[PW_RIGHT]);
  m->n_shim[PW_BOTTOM] = along(side[PW_BOTTOM], sill, n_sill, m->shim[PW_BOTTOM]);
  double place = (double)(m->n_shim[PW_LEFT] + m->n_shim[PW_RIGHT] + m->n_shim[PW_BOTTOM]);
  m->shims_low = (int)(place * RULE(MA12)->low);
  m->shims = (int)(place * RULE(MA12)->typical);
  m->shims_high = (int)(place * RULE(MA12)->high);
  m->screws_low = (int)(m->n_shim[PW_LEFT] + m->n_shim[PW_RIGHT]); /* MA14 */
  m->screws_high = m->screws_low + (int)along(side[PW_TOP], sill, n_sill, head);
}

/* ---------------------------------------------------------------- weight */

static double glass_mass(const pw_lites *w, const pw_buildup *glass)
{
  double bite = MEASURE(F11)->typical * PW_INCH, thickness = 0.0, area = 0.0;
  for (size_t i = 0; i < glass->n_pane; i++)
    thickness += glass->pane[i].thickness;
  for (size_t i = 0; i < w->n_lite; i++) {
    const pw_lite *lite = &w->lite[i];
    area += lite->round.area > 0.0 ? lite->round.area + lite->round.perimeter * bite
                                   : (lite->width + 2.0 * bite) * (lite->height + 2.0 * bite);
  }
  return area * thickness * RULE(MA23)->typical; /* EN 572-1 */
}

static const pw_ref_trade_materials_row *frame_rule(pw_frame_kind kind)
{
  switch (kind) {
  case PW_FRAME_VINYL:
    return RULE(MA17);
  case PW_FRAME_WOOD:
    return RULE(MA19);
  case PW_FRAME_FIBREGLASS:
    return RULE(MA20);
  default:
    return RULE(MA18);
  }
}

static void weigh(const pw_fit *fit, const pw_package *package, pw_frame_kind kind,
                  pw_materials *m)
{
  static const double pound_foot = PW_POUND / PW_FOOT;
  const pw_ref_trade_materials_row *frame = frame_rule(kind);
  const pw_lites *w = &fit->insert;
  double run =
      2.0 * (fit->order_width + fit->order_height) + (double)w->n_meeting * w->meeting_length;
  for (size_t i = 0; i < w->n_lite; i++)
    if (w->lite[i].moving) run += 2.0 * (w->lite[i].width + w->lite[i].height);
  m->glass_mass = glass_mass(w, &package->glass);
  m->mass_low = m->glass_mass + run * frame->low * pound_foot;
  m->mass = m->glass_mass + run * frame->typical * pound_foot;
  m->mass_high = m->glass_mass + run * frame->high * pound_foot;
  double hands = ceil(m->mass_high / (RULE(MA21)->typical * PW_POUND) - 1e-9);
  double longest = fmax(fit->order_width, fit->order_height);
  m->people = (int)fmax(hands, longest > RULE(MA22)->typical * PW_INCH ? 2.0 : 1.0);
}

void pw_materials_of(const pw_opening *opening, const pw_fit *fit, const pw_install *install,
                     const pw_package *package, pw_frame_kind kind, pw_materials *materials)
{
  pw_materials m = {0};
  seal(install, &m);
  inside(opening, fit, package, &m);
  shims(opening, fit, &m);
  weigh(fit, package, kind, &m);
  *materials = m;
}
