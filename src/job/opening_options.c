#include "job/opening_options.h"

#include <ctype.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/tape.h"
#include "gen/reference.h"
#include "job/date_text.h"
#include "panewright/lites.h"
#include "panewright/units.h"
#include "window/grille.h"
#include "window/options.h"

static const double bar_min = 0.125 * PW_INCH, bar_max = 4.0 * PW_INCH;

static const job_word tint[] = {{"none", PW_TINT_NONE},  {"no", PW_TINT_NONE},
                                {"clear", PW_TINT_NONE}, {"bronze", PW_TINT_BRONZE},
                                {"gray", PW_TINT_GRAY},  {"grey", PW_TINT_GRAY},
                                {"green", PW_TINT_GREEN}};
static const job_word place[] = {
    {"none", PW_GRILLE_NONE},       {"no", PW_GRILLE_NONE},
    {"between", PW_GRILLE_BETWEEN}, {"between_the_panes", PW_GRILLE_BETWEEN},
    {"outside", PW_GRILLE_OUTSIDE}, {"outdoors", PW_GRILLE_OUTSIDE}};
static const job_word hinge[] = {{"left", PW_HINGE_LEFT},
                                 {"l", PW_HINGE_LEFT},
                                 {"right", PW_HINGE_RIGHT},
                                 {"r", PW_HINGE_RIGHT},
                                 {"top", PW_HINGE_TOP}};

size_t job_option_columns(job_field f[], size_t option, size_t cells)
{
#define OPTION(member) .offset = option + offsetof(pw_options, member)
#define CELL(member) .offset = cells + offsetof(job_option_cells, member)
#define TEXT_OF(type, member) .size = sizeof((type *)0)->member
  const job_field table[] = {
      {.name = "tempered",
       .kind = JOB_TEXT,
       CELL(tempered),
       TEXT_OF(job_option_cells, tempered),
       .blank = ""},
      {.name = "pattern",
       .kind = JOB_TEXT,
       CELL(pattern),
       TEXT_OF(job_option_cells, pattern),
       .blank = ""},
      {.name = "tint",
       .kind = JOB_WORD,
       OPTION(tint),
       .word = tint,
       .n_word = JOB_COUNT(tint),
       .blank = ""},
      {.name = "grilles",
       .kind = JOB_WORD,
       OPTION(grille.place),
       .word = place,
       .n_word = JOB_COUNT(place),
       .blank = ""},
      {.name = "grille_pattern",
       .kind = JOB_TEXT,
       CELL(grille),
       TEXT_OF(job_option_cells, grille),
       .blank = ""},
      {.name = "grille_bar",
       .kind = JOB_LENGTH,
       CELL(bar),
       .low = 0.0,
       .high = bar_max,
       .blank = ""},
      {.name = "pet_panel", .kind = JOB_FLAG, OPTION(pet_panel), .blank = ""},
      {.name = "colour",
       .kind = JOB_TEXT,
       OPTION(colour),
       TEXT_OF(pw_options, colour),
       .blank = ""},
      {.name = "hinge",
       .kind = JOB_WORD,
       OPTION(hinge),
       .word = hinge,
       .n_word = JOB_COUNT(hinge),
       .blank = ""},
      {.name = "maker_note",
       .kind = JOB_TEXT,
       OPTION(maker_note),
       TEXT_OF(pw_options, maker_note),
       .blank = ""},
  };
  _Static_assert(JOB_COUNT(table) == JOB_OPTION_COLUMNS, "columns of the options");
  memcpy(f, table, sizeof table);
  return JOB_COUNT(table);
}

static pw_status refused(const char **column, const char *name, pw_err *err, const char *format,
                         ...) __attribute__((format(printf, 4, 5)));
static pw_status refused(const char **column, const char *name, pw_err *err, const char *format,
                         ...)
{
  char text[200];
  va_list args;
  va_start(args, format);
  vsnprintf(text, sizeof text, format, args);
  va_end(args);
  *column = name;
  return pw_fail(err, PW_E_DATA, NULL, "%s", text);
}

/* No word here takes safety glass away where a rule asks for it. */
static pw_status temper(const char *text, pw_options *p, const char **column, pw_err *err)
{
  static const job_word word[] = {{"yes", 1},  {"y", 1},    {"1", 1},
                                  {"true", 1}, {"rule", 0}, {"rules", 0}};
  if (!text[0]) return PW_OK;
  p->tempered = job_word_find(word, JOB_COUNT(word), text, NULL);
  if (p->tempered >= 0) return PW_OK;
  p->tempered = 0;
  return refused(
      column, "tempered", err,
      "'%s' is not taken; want yes, or rule (tempered where a rule of safety asks for it, "
      "which no word here takes away)",
      text);
}

static void pattern(const char *text, pw_options *p)
{
  static const job_word none[] = {{"no", 0}, {"none", 0}, {"n", 0}, {"0", 0}, {"clear", 0}};
  static const job_word usual[] = {{"yes", 0}, {"y", 0}, {"1", 0}};
  if (!text[0] || job_word_find(none, JOB_COUNT(none), text, NULL) == 0) return;
  int any = job_word_find(usual, JOB_COUNT(usual), text, NULL) == 0;
  snprintf(p->pattern, sizeof p->pattern, "%s", any ? "obscure" : text);
}

/* "3x2", "3 x 2", "3 X 2": columns and rows. */
static int read_pattern(const char *text, pw_grille *g)
{
  long n[2] = {0, 0};
  const char *p = text;
  for (int k = 0; k < 2; k++) {
    char *end = NULL;
    while (*p == ' ')
      p++;
    if (!isdigit((unsigned char)*p)) return 0;
    n[k] = strtol(p, &end, 10);
    p = end;
    while (*p == ' ')
      p++;
    if (k == 0 && *p != 'x' && *p != 'X' && strncmp(p, "\xC3\x97", 2) != 0) return 0;
    if (k == 0) p += *p == '\xC3' ? 2 : 1;
  }
  if (*p || n[0] < 1 || n[1] < 1 || n[0] > PW_GRILLE_MAX || n[1] > PW_GRILLE_MAX) return 0;
  g->cols = (int)n[0];
  g->rows = (int)n[1];
  return 1;
}

static pw_status grille(const job_option_cells *cells, pw_opening *o, const char *file,
                        int line, pw_notes *notes, const char **column, pw_err *err)
{
  pw_grille *g = &o->option.grille;
  if (g->place == PW_GRILLE_NONE) {
    if (cells->grille[0] || cells->bar >= 0.0)
      return refused(column, "grilles", err,
                     "none, and yet %s is given; want between or outside, or leave that blank",
                     cells->grille[0] ? "grille_pattern" : "grille_bar");
    return PW_OK;
  }
  int over = 0, under = 0;
  if (strpbrk(cells->grille, "-/ ") && job_date_turned(cells->grille, &over, &under))
    return refused(column, "grille_pattern", err,
                   "'%s' is a date that a spreadsheet made; write columns x rows as in 3x2",
                   cells->grille);
  if (!read_pattern(cells->grille, g))
    return refused(column, "grille_pattern", err,
                   "'%s' is not taken; want columns x rows of each lite, 1 to %d, as in 3x2",
                   cells->grille, PW_GRILLE_MAX);
  g->bar = cells->bar;
  if (g->bar < 0.0) {
    char tape[24], value[64];
    size_t row = g->place == PW_GRILLE_BETWEEN ? pw_ref_options_bars__between
                                               : pw_ref_options_bars__outside;
    g->bar = pw_ref_options_bars[row].width_in * PW_INCH;
    pw_tape_text(g->bar, 16, tape, sizeof tape);
    snprintf(value, sizeof value, "%s in (a usual bar, assumed)", tape);
    pw_notes_default(notes, file, line, "grille_bar", o->tag, value);
  } else if (g->bar < bar_min) {
    return refused(column, "grille_bar", err, "%g mm is no bar; want 1/8 in to 4 in",
                   g->bar * 1e3);
  }
  return PW_OK;
}

/* The side that a kind of window hangs on, or the column that says how it moves. */
static pw_status hang(const pw_opening *o, const char **column, pw_err *err)
{
  pw_operator k = o->operator_insert;
  pw_hinge h = o->option.hinge;
  if (h == PW_HINGE_ASK) return PW_OK;
  if (k == PW_CASEMENT && h == PW_HINGE_TOP)
    return refused(column, "hinge", err, "a casement hangs left or right, seen from outside");
  if (k == PW_AWNING && h != PW_HINGE_TOP)
    return refused(column, "hinge", err, "an awning hangs at its top; want top or blank");
  if (k == PW_FIXED || k == PW_SLIDER || k == PW_SINGLE_HUNG || k == PW_DOUBLE_HUNG ||
      k == PW_FLANKER || k == PW_SLIDING_DOOR)
    return refused(column, "hinge", err, "a window of kind %s has none; %s",
                   pw_operator_name(k),
                   k == PW_FIXED ? "leave it blank" : "config says which lite moves, as in XO");
  return PW_OK;
}

static void colour(pw_opening *o, const char *file, int line, pw_notes *notes)
{
  pw_options *p = &o->option;
  if (!p->colour[0]) return;
  p->absorptance = pw_colour_absorptance(p->colour, NULL, NULL);
  if (!(p->absorptance > 0.0))
    pw_notes_warn(
        notes, file, line,
        "%s: the sun that a frame of colour '%s' takes is not known; the order says the "
        "colour, the figures keep that of the frame line",
        o->tag, p->colour);
}

pw_status job_options_finish(const job_option_cells *cells, pw_opening *o, const char *file,
                             int line, pw_notes *notes, const char **column, pw_err *err)
{
  pw_status status = temper(cells->tempered, &o->option, column, err);
  pattern(cells->pattern, &o->option);
  if (status == PW_OK) status = grille(cells, o, file, line, notes, column, err);
  if (status == PW_OK) status = hang(o, column, err);
  if (status == PW_OK) colour(o, file, line, notes);
  return status;
}
