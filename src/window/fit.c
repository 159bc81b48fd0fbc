#include "panewright/fit.h"

#include <math.h>
#include <stddef.h>

#include "base/tape.h"
#include "panewright/units.h"
#include "window/fit_impl.h"
#include "window/grille.h"

static const double default_clearance = 0.375 * PW_INCH; /* measure.csv M9, M10 */
static const double lean_margin = FIT_LEAN_MARGIN;
static const double size_min = 4.0 * PW_INCH, size_max = 20.0 * PW_FOOT;
static const double sill_member = 1.5 * PW_INCH; /* half of the 3 in of SAFETY.md, memory */

const char *pw_square_name(pw_square square)
{
  static const char *const name[] = {"unknown", "ok", "adjust", "remeasure", "stop"};
  if (square == PW_SQUARE_NOT_ASKED) return "not asked";
  return (unsigned)square < sizeof name / sizeof name[0] ? name[square] : "unknown";
}

/* Refuses sizes that no pocket has; the column is named. */
static pw_status check_sizes(const pw_opening *o, pw_err *err)
{
  static const char *const name[8] = {"width_bottom", "width_middle",  "width_top",
                                      "height_left",  "height_middle", "height_right",
                                      "diagonal_1",   "diagonal_2"};
  const double value[8] = {o->width[0],  o->width[1],  o->width[2],    o->height[0],
                           o->height[1], o->height[2], o->diagonal[0], o->diagonal[1]};
  for (int i = 0; i < 8; i++)
    if (pw_is_given(value[i]) && value[i] != 0.0 &&
        !(value[i] >= size_min && value[i] <= size_max * (i < 6 ? 1.0 : 1.5)))
      return pw_fail(err, PW_E_DOMAIN, name[i], "%s %g in, want 4 in to %s ft", name[i],
                     value[i] / PW_INCH, i < 6 ? "20" : "30");
  pw_shape_size z = {.width = fit_read_three(o->width).least,
                     .height = fit_read_three(o->height).least};
  if (o->shape != PW_SHAPE_RECTANGLE) z = pw_fit_measured(o);
  if (!(z.width > 0.0 && z.height > 0.0))
    return pw_fail(err, PW_E_DOMAIN, "width_middle", "no width or no height was measured");
  if (!(o->fin_width >= 0.0 && 2.0 * o->fin_width < z.width))
    return pw_fail(err, PW_E_DOMAIN, "fin_width",
                   "two fins of %g in are wider than the opening of %g in",
                   o->fin_width / PW_INCH, z.width / PW_INCH);
  if (!(o->sill_lip >= 0.0 && o->sill_lip < z.height))
    return pw_fail(err, PW_E_DOMAIN, "sill_lip",
                   "a sill lip of %g in is higher than the opening of %g in",
                   o->sill_lip / PW_INCH, z.height / PW_INCH);
  if (o->fins_cut < 0 || o->fins_cut > 2)
    return pw_fail(err, PW_E_DOMAIN, "fins_cut", "%d fins cut, want 0, 1 or 2", o->fins_cut);
  if (o->shape != PW_SHAPE_RECTANGLE && pw_grille_has_bars(&o->option.grille))
    return pw_fail(
        err, PW_E_DOMAIN, "grilles",
        "bars in a %s are not reckoned: leave grilles blank, tell the maker in maker_note",
        pw_shape_name(o->shape));
  if (o->shape != PW_SHAPE_RECTANGLE && o->fins_cut == 1)
    return pw_fail(err, PW_E_DOMAIN, "fins_cut",
                   "the fins of a shape are cut both or not at all: 0 or 2");
  if (o->shape == PW_SHAPE_TRIANGLE && o->fin_width > 0.0)
    return pw_fail(err, PW_E_DOMAIN, "fin_width", "a triangle has no upright side for a fin");
  if ((o->shape == PW_SHAPE_CIRCLE || o->shape == PW_SHAPE_OCTAGON) && o->sill_lip > 0.0)
    return pw_fail(err, PW_E_DOMAIN, "sill_lip", "a %s has no sill from side to side for a lip",
                   pw_shape_name(o->shape));
  if (isinf(o->sill_height))
    return pw_fail(err, PW_E_DOMAIN, "sill_height", "a sill at %g in",
                   o->sill_height / PW_INCH);
  if (!(o->mullion_area >= 0.0 && isfinite(o->mullion_area)))
    return pw_fail(err, PW_E_DOMAIN, "mullion_area", "a mullion of %g m2, want 0 or more",
                   o->mullion_area);
  if (!(o->retained_face >= 0.0 && o->retained_face < size_min))
    return pw_fail(err, PW_E_DOMAIN, "retained_face", "retained face %g in, want 0 to 4 in",
                   o->retained_face / PW_INCH);
  return PW_OK;
}

/* The config is of the window that is there; of an insert where it is of the same kind. A flanker's has
 * three letters that a slider in its place does not mean. */
static const char *insert_config(const pw_opening *o)
{
  return o->operator_existing == PW_FLANKER && o->operator_insert != PW_FLANKER ? ""
                                                                                : o->config;
}

/* The face round the glass of a hinged door that is glass by that share, else as given:
 * (W - 2 m)(H - 2 m) = share W H. */
static double leaf_face(const pw_opening *o, pw_operator k, double w, double h, double given)
{
  if (k != PW_HINGED_DOOR || !(o->glass_share > 0.0)) return given;
  return 0.25 * ((w + h) - sqrt((w + h) * (w + h) - 4.0 * w * h * (1.0 - o->glass_share)));
}

/* Order size by the rule of measure.md item 5, with fins_cut fins and the lip cut or not. */
static void order(const pw_opening *o, const pw_fit *fit, int fins_cut, int lip_cut,
                  pw_cut_choice *c, pw_shape_size *z)
{
  c->fins_cut = fins_cut;
  c->lip_cut = lip_cut;
  *z = (pw_shape_size){PW_SHAPE_RECTANGLE};
  if (o->shape != PW_SHAPE_RECTANGLE) {
    fit_shape_order(o, fit, fins_cut, lip_cut, c, z);
    return;
  }
  c->pocket_width = fit->width_min + fins_cut * o->fin_width;
  c->pocket_height = fit->height_min + (lip_cut ? o->sill_lip : 0.0);
  double width =
      fmin(c->pocket_width - fit->clearance, c->pocket_width - fit->lean - lean_margin);
  c->order_width = fmax(0.0, pw_tape_floor(width, 8));
  c->order_height = fmax(0.0, pw_tape_floor(c->pocket_height - fit->clearance, 8));
}

/* Orders and cuts into lites; a choice that leaves no glass gets zeros. */
static pw_status try_choice(const pw_opening *o, const pw_frame_line *line, const pw_fit *fit,
                            int fins_cut, int lip_cut, pw_cut_choice *c, pw_lites *lites,
                            pw_shape_size *z, pw_err *err)
{
  order(o, fit, fins_cut, lip_cut, c, z);
  if (!(c->order_width >= size_min && c->order_height >= size_min))
    return pw_fail(
        err, PW_E_DOMAIN, "width_middle",
        "an order of %g x %g in is left after clearance and lean, want at least 4 in",
        c->order_width / PW_INCH, c->order_height / PW_INCH);
  pw_bounds shape;
  pw_status status = PW_OK;
  if (z->kind == PW_SHAPE_RECTANGLE) {
    status = pw_lites_cut(
        o->operator_insert, insert_config(o), c->order_width, c->order_height, line->frame_face,
        leaf_face(o, o->operator_insert, c->order_width, c->order_height, line->sash_face),
        line->meeting_face, lites, err);
  } else {
    status = pw_shape_make(z, &shape, err);
    if (status == PW_OK)
      status = pw_lites_shaped(o->operator_insert, &shape,
                               pw_operator_opens(o->operator_insert) ? line->sash_face
                                                                     : line->frame_face,
                               lites, err);
  }
  if (status != PW_OK) return status;
  c->glass_area = lites->glass_area;
  c->glass_kept = lites->glass_area / fit->existing.glass_area;
  return PW_OK;
}

static double glass_with(const pw_opening *o, const pw_frame_line *line, const pw_fit *fit,
                         int fins_cut, int lip_cut)
{
  pw_cut_choice c = {0};
  pw_lites lites;
  pw_shape_size z;
  if (try_choice(o, line, fit, fins_cut, lip_cut, &c, &lites, &z, NULL) != PW_OK) return 0.0;
  return c.glass_area;
}

/* All ways to cut what can be cut, and what each cut buys beside the job's other choice. */
static void weigh_cuts(const pw_opening *o, const pw_frame_line *line, int fins, int lip,
                       int fins_cut, int lip_cut, pw_fit *fit)
{
  for (int f = 0; f <= (fins ? 2 : 0); f += 2)
    for (int l = 0; l <= lip; l++) {
      pw_lites lites;
      pw_shape_size z;
      pw_cut_choice *c = &fit->choice[fit->n_choice++];
      *c = (pw_cut_choice){0};
      if (try_choice(o, line, fit, f, l, c, &lites, &z, NULL) != PW_OK)
        c->order_width = c->order_height = 0.0;
    }
  if (fins) {
    pw_cut_choice with = {0}, without = {0};
    pw_shape_size z;
    order(o, fit, 2, lip_cut, &with, &z);
    order(o, fit, 0, lip_cut, &without, &z);
    fit->fins_width_gain = with.order_width - without.order_width;
    fit->fins_glass_gain =
        glass_with(o, line, fit, 2, lip_cut) - glass_with(o, line, fit, 0, lip_cut);
  }
  if (lip) {
    pw_cut_choice with = {0}, without = {0};
    pw_shape_size z;
    order(o, fit, fins_cut, 1, &with, &z);
    order(o, fit, fins_cut, 0, &without, &z);
    fit->lip_height_gain = with.order_height - without.order_height;
    fit->lip_glass_gain =
        glass_with(o, line, fit, fins_cut, 1) - glass_with(o, line, fit, fins_cut, 0);
  }
}

/* The ring between the order size and the opening rectangle, side by side. A single cut fin is the
 * left one; clearance is shared alike by opposite sides. */
static void retained_ring(const pw_opening *o, int fins_cut, int lip_left, pw_fit *fit)
{
  double fin = o->fins_stay ? 0.0 : o->fin_width;
  double gap_w = 0.5 * (fit->pocket_width - fit->order_width);
  double gap_h = 0.5 * (fit->pocket_height - fit->order_height);
  fit->retained_face = o->retained_face;
  fit->retained_cover = o->retained_cover;
  fit->retained_area = fit->opening_area - fit->mullion_area - fit->order_area;
  fit->existing_frame_area = fit->opening_area - fit->existing.glass_area;
  if (o->shape != PW_SHAPE_RECTANGLE) {
    fit_shape_ring(o, fins_cut, !lip_left, fit);
    return;
  }
  fit->retained_width[PW_LEFT] = o->retained_face + gap_w + (fins_cut < 1 ? fin : 0.0);
  fit->retained_width[PW_RIGHT] = o->retained_face + gap_w + (fins_cut < 2 ? fin : 0.0);
  fit->retained_width[PW_BOTTOM] = o->retained_face + gap_h + (lip_left ? o->sill_lip : 0.0);
  fit->retained_width[PW_TOP] = o->retained_face + gap_h;
}

static void clear_openings(const pw_opening *o, int lip_cut, pw_fit *fit)
{
  /* What a shape leaves free when it opens is no rectangle: not counted on. */
  int shaped = o->shape != PW_SHAPE_RECTANGLE;
  fit->clear_existing = fit_clear(shaped ? PW_FIXED : o->operator_existing, o->config,
                                  fit->bare_width, fit->bare_height, 0);
  fit->clear_insert = fit_clear(shaped ? PW_FIXED : o->operator_insert, insert_config(o),
                                fit->order_width, fit->order_height, 1);
  if (!pw_is_given(o->sill_height)) return;
  fit->clear_existing.bottom = o->sill_height;
  fit->clear_insert.bottom = o->sill_height - (lip_cut ? o->sill_lip : 0.0) +
                             0.5 * (fit->pocket_height - fit->order_height) + sill_member;
}

/* A face of 0 where the kind has one: a window without a frame was forgotten, not measured. */
static pw_status check_faces(const pw_opening_face face[PW_OPENING_FACES], pw_err *err)
{
  for (size_t i = 0; i < PW_OPENING_FACES; i++)
    if (face[i].used && face[i].width == 0.0)
      return pw_fail(err, PW_E_DOMAIN, face[i].name,
                     "%s 0 in, want above 0, or not given for the usual of its kind",
                     face[i].name);
  return PW_OK;
}

/* Sizes of the opening, findings, and the lites that are there now. */
static pw_status begin(const pw_opening *o, double fin, double lip, pw_fit *f, pw_err *err)
{
  pw_opening_face face[PW_OPENING_FACES];
  pw_opening_faces(o, face);
  const double frame = face[PW_FACE_FRAME].width, sash = face[PW_FACE_SASH].width;
  pw_status status = check_faces(face, err);
  if (status != PW_OK) return status;
  if (o->shape != PW_SHAPE_RECTANGLE) {
    status = fit_shape_begin(o, fin, lip,
                             pw_operator_opens(o->operator_existing) ? sash : frame, f, err);
    if (status == PW_OK) fit_judge_shape(o, f);
    return status;
  }
  f->width_min = fit_read_three(o->width).least;
  f->height_min = fit_read_three(o->height).least;
  f->bare_width = f->width_min + 2.0 * fin;
  f->bare_height = f->height_min + lip;
  f->opening_width = f->bare_width + 2.0 * o->retained_face;
  f->opening_height = f->bare_height + 2.0 * o->retained_face;
  f->opening_area = f->opening_width * f->opening_height;
  f->opening_perimeter = 2.0 * (f->opening_width + f->opening_height);
  fit_judge(o, f);
  return pw_lites_cut(o->operator_existing, o->config, f->bare_width, f->bare_height, frame,
                      leaf_face(o, o->operator_existing, f->bare_width, f->bare_height, sash),
                      face[PW_FACE_MEETING].width, &f->existing, err);
}

pw_status pw_fit_opening(const pw_opening *o, const pw_frame_line *line, pw_fit *fit,
                         pw_err *err)
{
  pw_status status = check_sizes(o, err);
  if (status != PW_OK) return status;
  if (!line) return pw_fail(err, PW_E_SHAPE, "frame_line", "no frame line for %s", o->tag);

  pw_fit f = {.clearance = line->clearance > 0.0 ? line->clearance : default_clearance,
              .grille = o->option.grille,
              .absorptance = o->option.absorptance};
  int fins = o->fin_width > 0.0 && !o->fins_stay, lip = o->sill_lip > 0.0 && !o->lip_stay;
  int fins_cut = fins ? o->fins_cut : 0, lip_cut = lip && o->sill_lip_cut;
  status = begin(o, fins ? o->fin_width : 0.0, lip ? o->sill_lip : 0.0, &f, err);
  if (status != PW_OK) return status;
  f.mullion_area = o->mullion_area;
  f.opening_area += f.mullion_area;
  pw_cut_choice now = {0};
  double bars;
  status = try_choice(o, line, &f, fins_cut, lip_cut, &now, &f.insert, &f.order_shape, err);
  if (status == PW_OK) status = pw_grille_area(&f.grille, &f.insert, &bars, err);
  if (status != PW_OK) return status;
  f.pocket_width = now.pocket_width;
  f.pocket_height = now.pocket_height;
  f.order_width = now.order_width;
  f.order_height = now.order_height;
  f.order_area = f.insert.glass_area + f.insert.frame_area;
  if (o->shape == PW_SHAPE_RECTANGLE) f.order_area = f.order_width * f.order_height;
  f.glass_kept = now.glass_kept;
  f.lean_governs = f.lean + lean_margin > f.clearance + 1e-9;
  weigh_cuts(o, line, fins, lip, fins_cut, lip_cut, &f);
  retained_ring(o, fins_cut, lip && !lip_cut, &f);
  clear_openings(o, lip_cut, &f);
  *fit = f;
  return PW_OK;
}
