#include "panewright/lites.h"

#include <string.h>

#include "panewright/tape.h"

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
};

const char *pw_operator_name(pw_operator operator_)
{
  return (unsigned)operator_ < PW_OPERATOR_COUNT ? kind[operator_].name : "any";
}

int pw_operator_opens(pw_operator operator_) { return operator_ != PW_FIXED; }

/* Which lites move, first lite first. A hung window's "O/X" is written from the top down. */
static void motion(pw_operator operator_, const char *config, int moving[PW_LITES_MAX])
{
  size_t n = kind[operator_].n_lite, have = 0;
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
  w.n_lite = kind[operator_].n_lite;
  w.n_meeting = w.n_lite - 1;
  w.meeting_upright = kind[operator_].upright;
  double across = w.meeting_upright ? width : height, rail = w.n_meeting ? meeting_face : 0.0;
  double longest = 0.0;
  for (size_t i = 0; i < w.n_lite; i++) {
    pw_lite *l = &w.lite[i];
    l->moving = moving[i];
    double face = l->moving ? sash_face : frame_face;
    int first = i == 0, last = i + 1 == w.n_lite;
    double from = first ? face : kind[operator_].seam[i - 1] * across + 0.5 * rail;
    double to = last ? across - face : kind[operator_].seam[i] * across - 0.5 * rail;
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
