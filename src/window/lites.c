#include "panewright/lites.h"

#include <string.h>

#include "base/tape.h"

/* How a kind of window divides: seams at these shares of its width (or height, hung). */
static const struct {
  const char *name;
  size_t n_lite;
  int upright;       /* meeting rails stand (1) or lie (0) */
  double seam[2];    /* share of the way across */
  const char *moves; /* default, first lite left or below: X moves, O fixed */
} kind[PW_OPERATOR_COUNT] = {
    [PW_FIXED] = {"fixed", 1, 0, {0}, "O"},
    [PW_SLIDER] = {"slider", 2, 1, {0.5}, "XO"},
    [PW_SINGLE_HUNG] = {"single-hung", 2, 0, {0.5}, "XO"},
    [PW_DOUBLE_HUNG] = {"double-hung", 2, 0, {0.5}, "XX"},
    [PW_CASEMENT] = {"casement", 1, 0, {0}, "X"},
    [PW_AWNING] = {"awning", 1, 0, {0}, "X"},
    [PW_FLANKER] = {"flanker", 3, 1, {0.25, 0.75}, "XOX"}, /* quarters: trade, from memory */
    [PW_SLIDING_DOOR] = {"sliding door", 2, 1, {0.5}, "XO"},
    [PW_HOPPER] = {"hopper", 1, 0, {0}, "X"},
    [PW_JALOUSIE] = {"jalousie", 1, 0, {0}, "X"},
    [PW_HINGED_DOOR] = {"hinged door", 1, 0, {0}, "X"},
};

const char *pw_operator_name(pw_operator operator_)
{
  return (unsigned)operator_ < PW_OPERATOR_COUNT ? kind[operator_].name : "any";
}

int pw_operator_opens(pw_operator operator_) { return operator_ != PW_FIXED; }

int pw_operator_is_door(pw_operator operator_)
{
  return operator_ == PW_SLIDING_DOOR || operator_ == PW_HINGED_DOOR;
}

static size_t letters(const char *config)
{
  size_t n = 0;
  for (const char *p = config; *p; p++)
    n += *p == 'X' || *p == 'O';
  return n;
}

size_t pw_operator_lites(pw_operator operator_, const char *config)
{
  size_t n = letters(config);
  int slides = operator_ == PW_SLIDER || operator_ == PW_SLIDING_DOOR;
  if (slides && n > 2 && n <= PW_LITES_MAX) return n;
  return (unsigned)operator_ < PW_OPERATOR_COUNT ? kind[operator_].n_lite : 0;
}

double pw_operator_open_share(pw_operator operator_, const char *config)
{
  size_t n = letters(config), best = 0;
  if (pw_operator_lites(operator_, config) < 3 || operator_ == PW_FLANKER) return 0.0;
  for (size_t i = 0; i < n;) { /* a run of moving lites stacks over the fixed ones beside it */
    size_t end = i, room = 0;
    while (end < n && config[end] == config[i])
      end++;
    for (size_t k = i; k > 0 && config[k - 1] == 'O'; k--)
      room++;
    for (size_t k = end; k < n && config[k] == 'O'; k++)
      room++;
    size_t open = end - i < room ? end - i : room;
    if (config[i] == 'X' && open > best) best = open;
    i = end;
  }
  return (double)best / (double)n;
}

double pw_lite_area(const pw_lite *l)
{
  return l->round.area > 0.0 ? l->round.area : l->width * l->height;
}

/* Which lites move, first lite first. A hung window's "O/X" is written from the top down. */
static void motion(pw_operator operator_, const char *config, int moving[PW_LITES_MAX])
{
  size_t n = pw_operator_lites(operator_, config), have = 0;
  char letter[PW_LITES_MAX] = {0};
  for (const char *p = config; *p; p++) {
    if (*p != 'X' && *p != 'O') continue;
    if (have < PW_LITES_MAX) letter[have] = *p;
    have++;
  }
  int hung = operator_ == PW_SINGLE_HUNG || operator_ == PW_DOUBLE_HUNG;
  for (size_t i = 0; i < n; i++) {
    char c = have == n && n > 1 ? letter[hung ? n - 1 - i : i] : kind[operator_].moves[i];
    moving[i] = c == 'X';
  }
}

/* Where the i-th seam stands, share of the way across; lites are of one width but a flanker's. */
static double seam_at(pw_operator operator_, size_t n, size_t i)
{
  return n == kind[operator_].n_lite ? kind[operator_].seam[i - 1] : (double)i / (double)n;
}

static void add_up(pw_lites *w)
{
  for (size_t i = 0; i < w->n_lite; i++) {
    w->glass_area += w->lite[i].width * w->lite[i].height;
    w->glass_perimeter += 2.0 * (w->lite[i].width + w->lite[i].height);
  }
  w->meeting_area = (double)w->n_meeting * w->meeting_width * w->meeting_length;
  w->frame_area = w->width * w->height - w->glass_area;
}

pw_status pw_lites_cut(pw_operator operator_, const char *config, double width, double height,
                       double frame_face, double sash_face, double meeting_face,
                       pw_lites *lites, pw_err *err)
{
  if ((unsigned)operator_ >= PW_OPERATOR_COUNT)
    return pw_fail(err, PW_E_DOMAIN, "operator", "no kind of window has number %d",
                   (int)operator_);
  if (!(width > 0.0 && height > 0.0 && width < 100.0 && height < 100.0))
    return pw_fail(err, PW_E_DOMAIN, "width", "a window of %g x %g m, want sizes above 0",
                   width, height);
  if (!(frame_face >= 0.0 && sash_face >= 0.0 && meeting_face >= 0.0))
    return pw_fail(err, PW_E_DOMAIN, "frame_face", "a face below 0");

  pw_lites w = {.operator_ = operator_, .width = width, .height = height};
  int moving[PW_LITES_MAX];
  motion(operator_, config, moving);
  w.n_lite = pw_operator_lites(operator_, config);
  w.n_meeting = w.n_lite - 1;
  w.meeting_upright = kind[operator_].upright;
  double across = w.meeting_upright ? width : height, rail = w.n_meeting ? meeting_face : 0.0;
  double longest = 0.0;
  for (size_t i = 0; i < w.n_lite; i++) {
    pw_lite *l = &w.lite[i];
    l->moving = moving[i];
    double face = l->moving ? sash_face : frame_face;
    int first = i == 0, last = i + 1 == w.n_lite;
    double from = first ? face : seam_at(operator_, w.n_lite, i) * across + 0.5 * rail;
    double to =
        last ? across - face : seam_at(operator_, w.n_lite, i + 1) * across - 0.5 * rail;
    l->x = w.meeting_upright ? from : face;
    l->y = w.meeting_upright ? face : from;
    l->width = w.meeting_upright ? to - from : width - 2.0 * face;
    l->height = w.meeting_upright ? height - 2.0 * face : to - from;
    l->face[PW_LEFT] = w.meeting_upright && !first ? 0.0 : face;
    l->face[PW_RIGHT] = w.meeting_upright && !last ? 0.0 : face;
    l->face[PW_BOTTOM] = !w.meeting_upright && !first ? 0.0 : face;
    l->face[PW_TOP] = !w.meeting_upright && !last ? 0.0 : face;
    if (!(l->width > 0.0 && l->height > 0.0)) {
      char a[32], b[32], f[32];
      pw_tape_text(width, 16, a, sizeof a);
      pw_tape_text(height, 16, b, sizeof b);
      pw_tape_text(face, 16, f, sizeof f);
      return pw_fail(err, PW_E_DOMAIN, l->moving ? "sash_face" : "frame_face",
                     "a frame of %s in a side leaves no glass in a %s of %s x %s in", f,
                     kind[operator_].name, a, b);
    }
    double along = w.meeting_upright ? l->height : l->width;
    if (along > longest) longest = along;
  }
  w.meeting_width = rail;
  w.meeting_length = w.n_meeting ? longest : 0.0; /* as far as glass meets it */
  add_up(&w);
  *lites = w;
  return PW_OK;
}

/* The band along each side, cut at the corners by the mitre, for the areas between two outlines. */
static void by_side(const pw_outline *out, const pw_outline *in, double area, double side[4])
{
  double sum = 0.0;
  for (int k = 0; k < 4; k++)
    sum += side[k] = out->side[k] + (in ? in->side[k] : 0.0);
  for (int k = 0; k < 4; k++)
    side[k] *= area / sum;
}

pw_status pw_lites_shaped(pw_operator operator_, const pw_bounds *shape, double face,
                          pw_lites *lites, pw_err *err)
{
  pw_outline outer, day, center;
  if ((unsigned)operator_ >= PW_OPERATOR_COUNT || kind[operator_].n_lite != 1)
    return pw_fail(
        err, PW_E_DOMAIN, "operator",
        "a %s is no %s: fixed, casement, awning or hopper; more lites are openings of one "
        "unit",
        pw_shape_name(shape->kind), pw_operator_name(operator_));
  if (!(face >= 0.0)) return pw_fail(err, PW_E_DOMAIN, "frame_face", "a face below 0");
  pw_status status = pw_shape_outline(shape, &outer, err);
  if (status != PW_OK) return status;
  pw_bounds in = pw_shape_inset(shape, face);
  if (pw_shape_outline(&in, &day, NULL) != PW_OK) {
    char f[32];
    pw_tape_text(face, 16, f, sizeof f);
    return pw_fail(err, PW_E_DOMAIN, operator_ == PW_FIXED ? "frame_face" : "sash_face",
                   "a frame of %s in a side leaves no glass in that %s", f,
                   pw_shape_name(shape->kind));
  }
  in = pw_shape_inset(&in, PW_EDGE_BAND);
  int has_center = pw_shape_outline(&in, &center, NULL) == PW_OK;
  pw_lites w = {.operator_ = operator_,
                .width = outer.x_max - outer.x_min,
                .height = outer.y_max - outer.y_min,
                .n_lite = 1,
                .glass_area = day.area,
                .glass_perimeter = day.perimeter,
                .frame_area = outer.area - day.area};
  pw_lite *l = &w.lite[0];
  l->x = day.x_min - outer.x_min;
  l->y = day.y_min - outer.y_min;
  l->width = day.x_max - day.x_min;
  l->height = day.y_max - day.y_min;
  l->moving = operator_ != PW_FIXED;
  for (int k = 0; k < 4; k++)
    l->face[k] = face;
  l->round.area = day.area;
  l->round.perimeter = day.perimeter;
  l->round.center = has_center ? center.area : 0.0;
  by_side(&day, has_center ? &center : NULL, day.area - l->round.center, l->round.edge);
  by_side(&outer, &day, w.frame_area, l->round.frame);
  *lites = w;
  return PW_OK;
}
