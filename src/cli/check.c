/* panewright check: every published case, recomputed. */
#include <jansson.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "check/check.h"
#include "cli/command.h"
#include "out/json.h"
#include "panewright/nearest.h"

typedef struct tally {
  pw_format format;
  int all; /* print rows that hold, too */
  const char *group;
  size_t held, missed, advisory;
  pw_grid *grid;
  json_t *cases, *notes;
} tally;

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
  if (t->format == PW_JSON) {
    add_json(t, row);
    return;
  }
  if (holds && !t->all && t->format == PW_TEXT) return;
  pw_grid_cell(t->grid, "%s", t->group);
  pw_grid_cell(t->grid, "%s", row->id);
  pw_grid_cell(t->grid, "%s", row->quantity);
  pw_grid_cell(t->grid, "%.5g", row->ours);
  if (isnan(row->want)) {
    pw_grid_cell(t->grid, "%.5g .. %.5g", row->low, row->high);
    double off = row->ours < row->low    ? row->ours - row->low
                 : row->ours > row->high ? row->ours - row->high
                                         : 0.0;
    pw_grid_cell(t->grid, "%.2g", off);
  } else {
    pw_grid_cell(t->grid, "%.5g", row->want);
    pw_grid_cell(t->grid, "%.2g", row->ours - row->want);
  }
  pw_grid_cell(t->grid, "%s", row->unit);
  pw_grid_cell(t->grid, "%s", verdict(row));
  pw_grid_cell(t->grid, t->format == PW_CSV ? "%s (%s)" : "%.48s (%.24s)", row->source,
               row->how_known);
}

static void take_note(void *context, const char *text)
{
  tally *t = context;
  if (t->format == PW_JSON)
    json_array_append_new(t->notes, json_string(text));
  else if (t->format == PW_TEXT)
    printf("%s: %s\n", t->group, text);
}

static int run(const cli_args *args)
{
  pw_err err = {0};
  tally t = {.format = args->format, .all = cli_get(args, "all") != NULL};
  static const char *const header[] = {"<group", "<case", "<quantity", "ours",   "published",
                                       "off by", "<unit", "<verdict",  "<source"};
  const char *root = getenv("PW_SHARED");
  if (!root) root = "../shared";
  pw_check_sink sink = {take_row, take_note, &t, access(root, R_OK) == 0 ? root : NULL};
  const char *want = cli_get(args, "group");
  int found = 0;
  t.grid = pw_grid_new(9, header);
  t.cases = json_array();
  t.notes = json_array();
  for (size_t i = 0; i < pw_check_group_count; i++) {
    const pw_check_group *g = pw_check_groups[i];
    if (want && strcmp(want, g->name) != 0) continue;
    found = 1;
    t.group = g->name;
    size_t held = t.held, missed = t.missed, noted = t.advisory;
    if (g->run(&sink, &err) != PW_OK) return cli_fail(&err);
    if (t.format == PW_TEXT)
      printf("%-10s %5zu hold, %zu missed, %zu off but noted: %s\n", g->name, t.held - held,
             t.missed - missed, t.advisory - noted, g->about);
  }
  if (!found) {
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
  pw_status status = PW_OK;
  if (t.format == PW_JSON) {
    json_t *rootobj = json_object();
    json_object_set_new(rootobj, "held", json_integer((json_int_t)t.held));
    json_object_set_new(rootobj, "missed", json_integer((json_int_t)t.missed));
    json_object_set_new(rootobj, "off_but_noted", json_integer((json_int_t)t.advisory));
    json_object_set(rootobj, "notes", t.notes);
    json_object_set(rootobj, "cases", t.cases);
    status = pw_json_print(rootobj, stdout, &err);
  } else {
    if (t.format == PW_CSV || t.all || t.missed + t.advisory > 0)
      status = pw_grid_print(t.grid, stdout, t.format, &err);
    if (t.format == PW_TEXT)
      printf("all        %5zu hold, %zu missed, %zu off but noted\n", t.held, t.missed,
             t.advisory);
  }
  json_decref(t.cases);
  json_decref(t.notes);
  pw_grid_free(t.grid);
  if (status != PW_OK) return cli_fail(&err);
  int rc = cli_finish();
  return rc ? rc : t.missed ? EXIT_FAILED_CHECK : EXIT_DONE;
}

static const cli_option option[] = {{"group", "NAME", "only that group"},
                                    {"all", NULL, "print the rows that hold, too"},
                                    CLI_FORMAT,
                                    CLI_END};
extern const cli_command cli_check;
const cli_command cli_check = {
    "check",
    "",
    "recomputes the published cases: value, ours, difference, source",
    "Groups that need the fetched open files look for them in ../shared (or $PW_SHARED) and "
    "say so\n"
    "when they are not there. Exit status 1 when a case is missed.",
    option,
    0,
    0,
    run};
