#include "study/frames.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/tape.h"
#include "frame/conduct.h"
#include "panewright/unit.h"

static const char source[] = "computed section, retained frame drawn";
static const double width_slack =
    0.003; /* m, drawn against the face of the job: what a tape can tell */

void pw_frame_book_free(pw_frame_book *book)
{
  if (!book) return;
  free(book->solved);
  book->solved = NULL;
  book->n_solved = 0;
}

static const char *file_of(const char *path)
{
  const char *slash = strrchr(path, '/');
  return slash ? slash + 1 : path;
}

/* Once each, in the order in which they come up; what finds no room is counted in the last. */
static void remark(pw_frame_book *book, pw_message says)
{
  for (size_t i = 0; i < book->n_remark; i++)
    if (pw_message_alike(&book->remark[i], &says)) return;
  if (book->n_remark < PW_FRAME_REMARKS_MAX - 1)
    book->remark[book->n_remark++] = says;
  else {
    book->n_remark = PW_FRAME_REMARKS_MAX;
    book->remark[PW_FRAME_REMARKS_MAX - 1] = PW_SAYS_PLAIN(PW_SAY_FRAME_MORE);
  }
}

static const pw_named_section *find(const pw_frame_book *book, const char *name)
{
  for (size_t i = 0; i < book->n_section; i++)
    if (strcmp(book->section[i].name, name) == 0) return &book->section[i];
  return NULL;
}

static int same_given(const pw_frame_given *a, const pw_frame_given *b)
{
  for (size_t g = 0; g < sizeof a->gap / sizeof a->gap[0]; g++)
    if (a->gap[g] != b->gap[g]) return 0;
  return a->spacer == b->spacer && a->air == b->air;
}

static const pw_frame_solved *seen(const pw_frame_book *book, size_t section,
                                   const pw_frame_given *given)
{
  for (size_t i = 0; i < book->n_solved; i++) {
    const pw_frame_solved *s = &book->solved[i];
    if (s->section == section && same_given(&s->given, given)) return s;
  }
  return NULL;
}

/* The copy of a section with everything set that it leaves open. */
static pw_status set_given(pw_section *section, const pw_frame_given *given, pw_err *err)
{
  for (int g = 0; g < PW_PANES_MAX - 1; g++)
    if (given->gap[g] > 0.0 && !pw_section_set_gap(section, g + 1, given->gap[g]))
      return pw_fail(err, PW_E_DATA, "section", "no row of it stands for gap %d", g + 1);
  if (given->air >= 0) pw_section_set_filling(section, given->air ? "air" : "foam");
  if (given->spacer >= 0) return pw_section_set_spacer(section, (pw_spacer)given->spacer, err);
  return PW_OK;
}

static pw_status solve_copy(const pw_frame_book *book, pw_section *section,
                            const pw_frame_given *given, pw_section_result *r, pw_err *err)
{
  pw_frame_face face = PW_FACE_OTHER;
  pw_status status = set_given(section, given, err);
  if (status == PW_OK) status = pw_section_face(section, &face, err);
  if (status != PW_OK) return status;
  pw_films films = pw_films_rating(face, pw_env_winter.t_out, pw_env_winter.t_in);
  const pw_section_options options = {.t_out = pw_env_winter.t_out,
                                      .t_in = pw_env_winter.t_in,
                                      .films = &films,
                                      .tolerance =
                                          book->tolerance > 0.0 ? book->tolerance : 0.01};
  return pw_section_solve(section, &options, r, err);
}

static pw_status solve(pw_frame_book *book, const pw_named_section *named,
                       const pw_frame_given *given, const pw_frame_solved **out, pw_err *err)
{
  size_t index = (size_t)(named - book->section);
  *out = seen(book, index, given);
  if (*out) return PW_OK;
  if (!book->solved) book->solved = calloc(PW_FRAMES_SOLVED_MAX, sizeof *book->solved);
  if (!book->solved) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for sections");
  if (book->n_solved == PW_FRAMES_SOLVED_MAX)
    return pw_fail(err, PW_E_SHAPE, "section", "over %d sections with glass to solve",
                   PW_FRAMES_SOLVED_MAX);
  pw_section copy;
  pw_section_result r = {0};
  pw_err why = {0};
  pw_status status = pw_section_copy(&named->section, &copy, err);
  if (status != PW_OK) return status;
  status = solve_copy(book, &copy, given, &r, &why);
  pw_section_free(&copy);
  if (status != PW_OK)
    return pw_fail(err, status, "section", "section %.100s: %.230s", named->name, why.text);
  pw_frame_solved *s = &book->solved[book->n_solved++];
  *s = (pw_frame_solved){.section = index,
                         .given = *given,
                         .u_frame = r.u_frame,
                         .u_edge = r.u_edge,
                         .u_glass = r.u_glass,
                         .l2d = r.l2d,
                         .low = r.low,
                         .high = r.high,
                         .b_frame = r.b_frame,
                         .f_rsi = r.f_rsi,
                         .notes = r.notes};
  pw_section_result_free(&r);
  *out = s;
  return PW_OK;
}

static pw_status gaps_of(const pw_glazing *glazing, double gap[PW_PANES_MAX - 1], pw_err *err)
{
  pw_unit_result unit;
  pw_status status = pw_unit_solve(&glazing->unit, &pw_env_winter, NULL, &unit, err);
  if (status != PW_OK) return status;
  for (size_t g = 0; g < PW_PANES_MAX - 1; g++)
    gap[g] = g + 1 < glazing->unit.n_pane ? unit.gap[g].conductance : 0.0;
  return PW_OK;
}

/* One window whose frame is drawn. */
typedef struct window {
  int of_package;
  const char *name,
      *line; /* whose glass: a package or an opening; whose frame: a line or an opening */
  const char *section[PW_SIDE_COUNT];
  const pw_lites *lites;      /* NULL: the job's widths are not compared */
  double ring[PW_SIDE_COUNT]; /* m, retained ring that the section holds, a side */
  int spacer, air;            /* -1: an existing window, whose drawing fixes them */
  int with_ring;
} window;

/* The glass has as many gaps as the drawing: 1; else refused, or 0 for the catalogue. */
static pw_status match(pw_frame_book *book, const window *w, const pw_named_section *named,
                       size_t n_pane, int *fits, pw_err *err)
{
  int drawn = pw_section_gaps(&named->section), have = (int)n_pane - 1;
  *fits = drawn == have;
  if (*fits) return PW_OK;
  if (book->mismatch == PW_MISMATCH_REFUSE)
    return pw_fail(
        err, PW_E_DATA, "section",
        "section %.100s is drawn with %d gap%s, the glass of %s %.48s has %d: draw it so, or "
        "give section_mismatch,catalogue in job.csv",
        named->name, drawn, drawn == 1 ? "" : "s", w->of_package ? "package" : "opening",
        w->name, have);
  int whose = w->of_package ? PW_SAY_A_PACKAGE : PW_SAY_AN_OPENING;
  pw_message says =
      drawn == 1 ? PW_SAYS(PW_SAY_FRAME_GAP, PW_OWN, PW_WORD(whose), PW_OWN_2, PW_INT(have))
                 : PW_SAYS(PW_SAY_FRAME_GAPS, PW_OWN, PW_INT(drawn), PW_WORD(whose), PW_OWN_2,
                           PW_INT(have));
  pw_message_owns(&says, file_of(named->name), w->name);
  remark(book, says);
  return PW_OK;
}

/* Mean face of the frame on a side, as the lites have it, m; 0 when there is none. */
static double face_of(const pw_lites *w, int side)
{
  double area = 0.0, length = 0.0;
  if (side == PW_SIDE_MEETING) return w->n_meeting > 0 ? w->meeting_width : 0.0;
  for (size_t i = 0; i < w->n_lite; i++)
    for (int k = 0; k < 4; k++) {
      const pw_lite *l = &w->lite[i];
      int mine = k == PW_BOTTOM ? PW_SIDE_SILL : k == PW_TOP ? PW_SIDE_HEAD : PW_SIDE_JAMB;
      double along = k == PW_BOTTOM || k == PW_TOP ? l->width : l->height;
      if (mine != side || !(l->face[k] > 0.0)) continue;
      area += l->face[k] * along;
      length += along;
    }
  return length > 0.0 ? area / length : 0.0;
}

/* Note 3 of the header. */
static double frame_u(pw_frame_book *book, const window *w, int side,
                      const pw_named_section *named, const pw_frame_solved *s)
{
  static const pw_message_number name[PW_SIDE_COUNT] = {PW_SAY_SIDE_SILL, PW_SAY_SIDE_HEAD,
                                                        PW_SAY_SIDE_JAMB, PW_SAY_SIDE_MEETING};
  double face = w->lites ? face_of(w->lites, side) : 0.0;
  double job = face + (side == PW_SIDE_MEETING ? 0.0 : w->ring[side]);
  if (!(face > 0.0) || !(fabs(job - s->b_frame) > width_slack)) return s->u_frame;
  double heat = s->u_frame * s->b_frame + s->u_glass * (job - s->b_frame);
  pw_message says = PW_SAYS(w->with_ring && side != PW_SIDE_MEETING ? PW_SAY_FRAME_WIDTH_RING
                                                                    : PW_SAY_FRAME_WIDTH,
                            PW_OWN, PW_SI(s->b_frame), PW_SI(s->b_frame), PW_WORD(name[side]),
                            PW_WORD(w->of_package ? PW_SAY_A_FRAME_LINE : PW_SAY_AN_OPENING),
                            PW_OWN_2, PW_SI(job), PW_SI(job));
  pw_message_owns(&says, file_of(named->name), w->line);
  remark(book, says);
  return fmax(heat, 0.0) / job;
}

static void remark_file(pw_frame_book *book, pw_message_number say, const char *file)
{
  pw_message says = PW_SAYS(say, PW_OWN);
  pw_message_own(&says, file);
  remark(book, says);
}

static void remark_drawing(pw_frame_book *book, const window *w, int side,
                           const pw_named_section *named, const pw_frame_solved *s)
{
  const char *file = file_of(named->name);
  if (s->notes & PW_SECTION_BELOW) remark_file(book, PW_SAY_FRAME_BELOW, file);
  if (w->spacer < 0) return;
  int n_gap = pw_section_gaps(&named->section);
  int spacer = n_gap > 0 && !pw_section_stands(&named->section, PW_STANDS_SPACER);
  int filling = w->with_ring && side != PW_SIDE_MEETING &&
                !pw_section_stands(&named->section, PW_STANDS_FILLING);
  if (spacer || filling)
    remark_file(book,
                spacer && filling ? PW_SAY_FRAME_FIXES_BOTH
                : spacer          ? PW_SAY_FRAME_FIXES_SPACER
                                  : PW_SAY_FRAME_FIXES_FILLING,
                file);
}

static pw_status fill(pw_frame_book *book, const window *w, const pw_glazing *glazing,
                      pw_frame_values *values, pw_err *err)
{
  pw_frame_given given = {.spacer = w->spacer, .air = w->air};
  pw_status status = gaps_of(glazing, given.gap, err);
  for (int side = 0; status == PW_OK && side < PW_SIDE_COUNT; side++) {
    const pw_frame_solved *s = NULL;
    int fits = 0;
    if (!w->section[side] || !w->section[side][0]) continue;
    if (side == PW_SIDE_MEETING && w->lites && w->lites->n_meeting == 0) continue;
    const pw_named_section *named = find(book, w->section[side]);
    if (!named)
      return pw_fail(err, PW_E_MISSING, "section", "section %.200s was not read",
                     w->section[side]);
    status = match(book, w, named, glazing->unit.n_pane, &fits, err);
    if (status != PW_OK || !fits) continue;
    pw_frame_given own = given;
    if (!pw_section_stands(&named->section, PW_STANDS_SPACER)) own.spacer = -1;
    if (!pw_section_stands(&named->section, PW_STANDS_FILLING)) own.air = -1;
    status = solve(book, named, &own, &s, err);
    if (status != PW_OK) break;
    remark_drawing(book, w, side, named, s);
    values->side[side].u_frame = isfinite(s->u_frame) ? frame_u(book, w, side, named, s) : 0.0;
    values->side[side].u_edge = isfinite(s->u_edge) ? s->u_edge : 0.0;
    values->side[side].f_rsi = s->f_rsi;
    values->source = source;
  }
  return status;
}

pw_status pw_frames_existing(pw_frame_book *book, const pw_opening *opening, const pw_fit *fit,
                             const pw_glazing *glazing, pw_frame_values *values, pw_err *err)
{
  const char *s = opening->existing_section;
  const window w = {.name = opening->tag,
                    .line = opening->tag,
                    .section = {s, s, s, NULL},
                    .lites = fit ? &fit->existing : NULL,
                    .spacer = -1,
                    .air = -1};
  *values = (pw_frame_values){0};
  return s[0] ? fill(book, &w, glazing, values, err) : PW_OK;
}

/* What of the ring a section with the retained frame holds: all but an old face that stays beyond. */
static void ring_of(const pw_fit *fit, double ring[PW_SIDE_COUNT])
{
  const double *r = fit->retained_width;
  ring[PW_SIDE_SILL] = r[PW_BOTTOM] - fit->retained_face;
  ring[PW_SIDE_HEAD] = r[PW_TOP] - fit->retained_face;
  ring[PW_SIDE_JAMB] = 0.5 * (r[PW_LEFT] + r[PW_RIGHT]) - fit->retained_face;
}

pw_status pw_frames_insert(pw_frame_book *book, const pw_frame_line *line,
                           const pw_package *package, const pw_fit *fit,
                           const pw_glazing *glazing, pw_frame_values *values, pw_err *err)
{
  window w = {.of_package = 1,
              .name = package->name,
              .line = line->name,
              .section = {line->section_sill, line->section_head, line->section_jamb,
                          line->section_meeting},
              .lites = fit ? &fit->insert : NULL,
              .spacer = (int)package->spacer,
              .air = strcmp(package->filling, "air") == 0,
              .with_ring = line->sections_hold_ring};
  *values = (pw_frame_values){.with_ring = line->sections_hold_ring};
  if (fit && w.with_ring) ring_of(fit, w.ring);
  int any = 0;
  for (int side = 0; side < PW_SIDE_COUNT; side++)
    any |= w.section[side][0] != '\0';
  return any ? fill(book, &w, glazing, values, err) : PW_OK;
}

int pw_frames_fix(const pw_frame_book *book, const pw_frame_line *line, pw_stands stands)
{
  const char *const name[] = {line->section_sill, line->section_head, line->section_jamb,
                              line->section_meeting};
  int any = 0;
  for (size_t i = 0; i < sizeof name / sizeof name[0]; i++) {
    const pw_named_section *named = name[i][0] ? find(book, name[i]) : NULL;
    if (!named) continue;
    if (pw_section_stands(&named->section, stands)) return 0;
    any = 1;
  }
  return any;
}

int pw_frames_hold_ring(const pw_frame_line *line)
{
  return line->sections_hold_ring &&
         (line->section_sill[0] || line->section_head[0] || line->section_jamb[0]);
}
