/* panewright check: every published case, recomputed. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/nearest.h"
#include "check/check.h"
#include "cli/command.h"
#include "out/json.h"
#include "out/text_stream.h"
#include "out/wrap.h"

typedef struct tally {
  pw_format format;
  int all; /* print rows that hold, too */
  const char *group;
  size_t held, missed, advisory;
  pw_grid *grid;     /* of CSV */
  FILE *rows;        /* of text: printed below the tallies */
  char heading[400]; /* group and source of the row before */
  json_t *cases, *notes;
} tally;

enum { WIDTH = 100 };

static const char *verdict(const pw_check_row *row)
{
  if (pw_check_holds(row)) return "ok";
  return row->advisory ? "off (noted)" : "MISSED";
}

static void add_json(tally *t, const pw_check_row *row)
{
  json_t *c = json_object();
  pw_json_set_text(c, "group", t->group);
  pw_json_set_text(c, "id", row->id);
  pw_json_set_text(c, "quantity", row->quantity);
  pw_json_set_text(c, "unit", row->unit);
  pw_json_set(c, "ours", row->ours);
  if (isnan(row->want)) {
    pw_json_set(c, "low", row->low);
    pw_json_set(c, "high", row->high);
  } else {
    pw_json_set(c, "want", row->want);
    pw_json_set(c, "tolerance", row->tolerance);
    pw_json_set(c, "low", row->want - row->tolerance);
    pw_json_set(c, "high", row->want + row->tolerance);
  }
  json_object_set_new(c, "in_range", json_boolean(pw_check_holds(row)));
  json_object_set_new(c, "advisory", json_boolean(row->advisory));
  pw_json_set_text(c, "source", row->source);
  pw_json_set_text(c, "how_known", row->how_known);
  json_array_append_new(t->cases, c);
}

/* Off by how much, and what is published, as print shows them. */
static double distance(const pw_check_row *row, char published[40])
{
  if (!isnan(row->want)) {
    snprintf(published, 40, "%.5g", row->want);
    return row->ours - row->want;
  }
  snprintf(published, 40, "%.5g .. %.5g", row->low, row->high);
  return row->ours < row->low    ? row->ours - row->low
         : row->ours > row->high ? row->ours - row->high
                                 : 0.0;
}

/* Figures in columns and the words last, where they may go on below; a source heads its rows. */
static void add_text(tally *t, const pw_check_row *row)
{
  char heading[400], lead[120], published[40], text[400];
  double off = distance(row, published);
  snprintf(heading, sizeof heading, "%s, %s (%s)", t->group, row->source, row->how_known);
  if (strcmp(heading, t->heading) != 0) {
    fputc('\n', t->rows);
    pw_wrap(t->rows, "", heading, WIDTH);
    fprintf(t->rows, "  %-11s %8s %16s %8s %-9s %s\n", "verdict", "ours", "published", "off by",
            "unit", "case: quantity");
    strcpy(t->heading, heading);
  }
  snprintf(lead, sizeof lead, "  %-11s %8.5g %16s %8.2g %-9s ", verdict(row), row->ours,
           published, off, row->unit);
  snprintf(text, sizeof text, "%s: %s", row->id, row->quantity);
  pw_wrap(t->rows, lead, text, WIDTH);
}

static void add_csv(tally *t, const pw_check_row *row)
{
  char published[40];
  double off = distance(row, published);
  pw_grid_cell(t->grid, "%s", t->group);
  pw_grid_cell(t->grid, "%s", row->id);
  pw_grid_cell(t->grid, "%s", row->quantity);
  pw_grid_cell(t->grid, "%.5g", row->ours);
  pw_grid_cell(t->grid, "%s", published);
  pw_grid_cell(t->grid, "%.2g", off);
  pw_grid_cell(t->grid, "%s", row->unit);
  pw_grid_cell(t->grid, "%s", verdict(row));
  pw_grid_cell(t->grid, "%s (%s)", row->source, row->how_known);
}

static void take_row(void *context, const pw_check_row *row)
{
  tally *t = context;
  int holds = pw_check_holds(row);
  if (holds)
    t->held++;
  else if (row->advisory)
    t->advisory++;
  else
    t->missed++;
  if (t->format == PW_JSON)
    add_json(t, row);
  else if (t->format == PW_CSV)
    add_csv(t, row);
  else if (!holds || t->all)
    add_text(t, row);
}

/* Of the row just taken. */
static void take_band(void *context, const pw_check_band *b)
{
  tally *t = context;
  size_t n = json_array_size(t->cases);
  if (t->format != PW_JSON || n == 0) return;
  json_t *c = json_array_get(t->cases, n - 1);
  pw_json_set(c, "measured_low", b->measured_low);
  pw_json_set(c, "measured_high", b->measured_high);
  pw_json_set(c, "p5", b->p5);
  pw_json_set(c, "p10", b->p10);
  pw_json_set(c, "p50", b->p50);
  pw_json_set(c, "p90", b->p90);
  pw_json_set(c, "p95", b->p95);
}

static void take_note(void *context, const char *text)
{
  tally *t = context;
  if (t->format == PW_JSON)
    json_array_append_new(t->notes, json_string(text));
  else if (t->format == PW_TEXT) {
    char lead[40];
    snprintf(lead, sizeof lead, "%.30s: ", t->group);
    pw_wrap(stdout, lead, text, WIDTH);
  }
}

static int unknown_group(const char *want)
{
  const char *known[64];
  size_t n = 0;
  for (; n < pw_check_group_count && n < 64; n++)
    known[n] = pw_check_groups[n]->name;
  const char *near = pw_nearest(want, known, n);
  fprintf(stderr, "panewright check: no group '%s'%s%s; groups:", want,
          near ? "; did you mean " : "", near ? near : "");
  for (size_t i = 0; i < n; i++)
    fprintf(stderr, " %s", known[i]);
  fputc('\n', stderr);
  return EXIT_USAGE;
}

enum { OPEN_DATA_PATH = 512 };

/* The folder of open files: the one named, the repository's, or share/panewright/checks beside the
 * folder of the program; NULL when there is none. */
static const char *open_data(const char *named, char path[OPEN_DATA_PATH])
{
  static const char here[] = "reference/checks", beside[] = "../share/panewright/checks";
  if (named) return named;
  if (access(here, R_OK) == 0) return here;
  ssize_t n = readlink("/proc/self/exe", path, OPEN_DATA_PATH - sizeof beside);
  while (n > 0 && path[n - 1] != '/')
    n--;
  if (n <= 0) return NULL;
  memcpy(path + n, beside, sizeof beside);
  return access(path, R_OK) == 0 ? path : NULL;
}

/* Runs the groups asked for; in text each prints its tally as it is done. */
static pw_status run_groups(tally *t, const char *want, const char *data, int *found,
                            pw_err *err)
{
  char path[OPEN_DATA_PATH];
  pw_check_sink sink = {take_row, take_note, t, open_data(data, path), take_band};
  for (size_t i = 0; i < pw_check_group_count; i++) {
    const pw_check_group *g = pw_check_groups[i];
    if (want && strcmp(want, g->name) != 0) continue;
    if (!want && pw_check_apart(g)) {
      char note[120];
      snprintf(note, sizeof note, "runs when it is named: --group %.30s", g->name);
      t->group = g->name;
      take_note(t, note);
      continue;
    }
    *found = 1;
    t->group = g->name;
    size_t held = t->held, missed = t->missed, noted = t->advisory;
    pw_status status = g->run(&sink, err);
    if (status != PW_OK) return status;
    if (t->format != PW_TEXT) continue;
    char lead[120];
    snprintf(lead, sizeof lead, "%-13.30s%5zu hold, %zu missed, %zu noted: ", g->name,
             t->held - held, t->missed - missed, t->advisory - noted);
    pw_wrap(stdout, lead, g->about, WIDTH);
  }
  return PW_OK;
}

static pw_status print_json(tally *t, pw_err *err)
{
  json_t *root = json_object();
  json_object_set_new(root, "held", json_integer((json_int_t)t->held));
  json_object_set_new(root, "missed", json_integer((json_int_t)t->missed));
  json_object_set_new(root, "off_but_noted", json_integer((json_int_t)t->advisory));
  json_object_set(root, "notes", t->notes);
  json_object_set(root, "cases", t->cases);
  return pw_json_print(root, stdout, err);
}

static int run(const cli_args *args)
{
  static const char *const header[] = {"<group", "<case", "<quantity", "ours",   "published",
                                       "off by", "<unit", "<verdict",  "<source"};
  pw_err err = {0};
  pw_text_stream rows;
  int found = 0;
  const char *want = cli_get(args, "group");
  tally t = {.format = args->format,
             .all = cli_get(args, "all") != NULL,
             .grid = pw_grid_new(9, header),
             .rows = pw_text_stream_open(&rows) ? rows.f : NULL,
             .cases = json_array(),
             .notes = json_array()};
  pw_status status = t.rows ? run_groups(&t, want, cli_get(args, "data"), &found, &err)
                            : pw_fail(&err, PW_E_NOMEM, NULL, "out of memory");
  if (t.rows && !pw_text_stream_close(&rows) && status == PW_OK)
    status = pw_fail(&err, PW_E_NOMEM, NULL, "out of memory");
  if (status == PW_OK && found && t.format == PW_JSON) status = print_json(&t, &err);
  if (status == PW_OK && found && t.format == PW_CSV)
    status = pw_grid_print(t.grid, stdout, PW_CSV, &err);
  if (status == PW_OK && found && t.format == PW_TEXT)
    printf("%s%s%-13s%5zu hold, %zu missed, %zu off but noted\n", rows.text,
           rows.size ? "\n" : "", "all", t.held, t.missed, t.advisory);
  json_decref(t.cases);
  json_decref(t.notes);
  pw_grid_free(t.grid);
  free(rows.text);
  if (status != PW_OK) return cli_fail(&err);
  if (!found) return unknown_group(want);
  int rc = cli_finish();
  return rc ? rc : t.missed ? EXIT_FAILED_CHECK : EXIT_DONE;
}

static const cli_option option[] = {
    {"group", "NAME", "only that group"},
    {"data", "DIR", "folder of open weather files and of trials (reference/checks)"},
    {"all", NULL, "print the rows that hold, too"},
    CLI_FORMAT,
    CLI_END};
extern const cli_command cli_check;
const cli_command cli_check = {
    "check",
    "",
    "recomputes the published cases: value, ours, difference, source",
    "Open weather files are read from --data, else from reference/checks here, else from where "
    "the\n"
    "program is installed. Exit status 1 when a case is missed, 66 when a file is not there.",
    option,
    0,
    0,
    run};
