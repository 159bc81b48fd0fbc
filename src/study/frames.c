#include "panewright/frames.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "panewright/conduct.h"
#include "panewright/unit.h"

static const char source[] = "computed section, retained frame drawn";

void pw_frame_book_free(pw_frame_book *book)
{
  if (!book) return;
  free(book->solved);
  book->solved = NULL;
  book->n_solved = 0;
}

static pw_status find(const pw_frame_book *book, const char *name, size_t *index, pw_err *err)
{
  for (size_t i = 0; i < book->n_section; i++)
    if (strcmp(book->section[i].name, name) == 0) {
      *index = i;
      return PW_OK;
    }
  return pw_fail(err, PW_E_MISSING, "section", "section %s was not read", name);
}

static const pw_frame_solved *seen(const pw_frame_book *book, size_t section,
                                   const double gap[])
{
  for (size_t i = 0; i < book->n_solved; i++) {
    const pw_frame_solved *s = &book->solved[i];
    if (s->section == section && memcmp(s->gap, gap, sizeof s->gap) == 0) return s;
  }
  return NULL;
}

static pw_status solve(pw_frame_book *book, size_t index, const double gap[],
                       const pw_frame_solved **out, pw_err *err)
{
  pw_named_section *named = &book->section[index];
  *out = seen(book, index, gap);
  if (*out) return PW_OK;
  if (!book->solved) book->solved = calloc(PW_FRAMES_SOLVED_MAX, sizeof *book->solved);
  if (!book->solved) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for sections");
  if (book->n_solved == PW_FRAMES_SOLVED_MAX)
    return pw_fail(err, PW_E_SHAPE, "section", "over %d sections with glass to solve",
                   PW_FRAMES_SOLVED_MAX);
  for (int g = 0; g < PW_PANES_MAX - 1; g++)
    if (gap[g] > 0.0) pw_section_set_gap(&named->section, g + 1, gap[g]);
  pw_frame_face face;
  pw_status status = pw_section_face(&named->section, &face, err);
  if (status != PW_OK) return status;
  pw_films films = pw_films_rating(face, pw_env_winter.t_out, pw_env_winter.t_in);
  pw_section_options options = {.t_out = pw_env_winter.t_out,
                                .t_in = pw_env_winter.t_in,
                                .films = &films,
                                .tolerance = book->tolerance > 0.0 ? book->tolerance : 0.01};
  pw_section_result r;
  status = pw_section_solve(&named->section, &options, &r, err);
  if (status != PW_OK) {
    char text[240];
    snprintf(text, sizeof text, "%.230s", err ? err->text : "");
    return pw_fail(err, status, "section", "section %.100s: %s", named->name, text);
  }
  pw_frame_solved *s = &book->solved[book->n_solved++];
  *s = (pw_frame_solved){.section = index,
                         .u_frame = r.u_frame,
                         .u_edge = r.u_edge,
                         .l2d = r.l2d,
                         .low = r.low,
                         .high = r.high,
                         .b_frame = r.b_frame,
                         .coldest = r.coldest};
  memcpy(s->gap, gap, sizeof s->gap);
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

static pw_status fill(pw_frame_book *book, const char *const name[PW_SIDE_COUNT],
                      const pw_glazing *glazing, pw_frame_values *values, pw_err *err)
{
  double gap[PW_PANES_MAX - 1];
  pw_status status = gaps_of(glazing, gap, err);
  for (int side = 0; status == PW_OK && side < PW_SIDE_COUNT; side++) {
    size_t index = 0;
    const pw_frame_solved *s = NULL;
    if (!name[side] || !name[side][0]) continue;
    status = find(book, name[side], &index, err);
    if (status == PW_OK) status = solve(book, index, gap, &s, err);
    if (status != PW_OK) break;
    values->side[side].u_frame = isfinite(s->u_frame) ? s->u_frame : 0.0;
    values->side[side].u_edge = isfinite(s->u_edge) ? s->u_edge : 0.0;
    values->source = source;
  }
  return status;
}

pw_status pw_frames_existing(pw_frame_book *book, const pw_opening *opening,
                             const pw_glazing *glazing, pw_frame_values *values, pw_err *err)
{
  const char *s = opening->existing_section;
  const char *const name[PW_SIDE_COUNT] = {s, s, s, NULL};
  *values = (pw_frame_values){0};
  return s[0] ? fill(book, name, glazing, values, err) : PW_OK;
}

pw_status pw_frames_insert(pw_frame_book *book, const pw_frame_line *line,
                           const pw_glazing *glazing, pw_frame_values *values, pw_err *err)
{
  const char *const name[PW_SIDE_COUNT] = {line->section_sill, line->section_head,
                                           line->section_jamb, line->section_meeting};
  *values = (pw_frame_values){.with_ring = line->sections_hold_ring};
  return fill(book, name, glazing, values, err);
}
