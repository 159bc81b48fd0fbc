#include "out/worksheet.h"
#include "out/text_stream.h"

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

#include "out/grid.h"
#include "out/worksheet_impl.h"
#include "study/rebate.h"

static pw_field *next(pw_worksheet *w)
{
  if (w->n == w->room) {
    size_t room = w->room ? 2 * w->room : 256;
    pw_field *bigger = realloc(w->field, room * sizeof *bigger);
    if (!bigger) {
      w->lost = 1;
      return NULL;
    }
    w->field = bigger;
    w->room = room;
  }
  pw_field *field = &w->field[w->n++];
  memset(field, 0, sizeof *field);
  return field;
}

void worksheet_add(pw_worksheet *w, const char *block, const char *mark, const char *name,
                   pw_field_origin origin, const char *note, const char *value, ...)
{
  pw_field *field = next(w);
  if (!field) return;
  const pw_tongue *t = w->tongue;
  field->block = pw_tongue_say(t, block);
  field->origin = origin;
  snprintf(field->mark, sizeof field->mark, "%s", mark);
  snprintf(field->name, sizeof field->name, "%s", pw_tongue_say(t, name));
  snprintf(field->note, sizeof field->note, "%s", pw_tongue_say(t, note));
  va_list args;
  va_start(args, value);
  if (strcmp(value, "%s") == 0)
    snprintf(field->value, sizeof field->value, "%s",
             pw_tongue_say(t, va_arg(args, const char *)));
  else
    vsnprintf(field->value, sizeof field->value, pw_tongue_say(t, value), args);
  va_end(args);
}

void worksheet_figure(pw_worksheet *w, const char *block, const char *mark, const char *name,
                      pw_figure kind, double value, const char *key, ...)
{
  char text[32];
  pw_figure_text(kind, pw_units(0), value, text);
  worksheet_add(w, block, mark, name, PW_FIELD_COMPUTED, "", "%s", text);
  if (w->lost) return;
  pw_field *field = &w->field[w->n - 1];
  field->kind = kind;
  va_list args;
  va_start(args, key);
  vsnprintf(field->key, sizeof field->key, key, args);
  va_end(args);
}

/* Area of one opening by the basis, m2. */
static double worksheet_area(const pw_worksheet_input *input, size_t i)
{
  const pw_fit *fit = &input->compare->fitted.fit[input->package][i];
  return input->basis == PW_SIZE_UNIT ? fit->order_area : fit->opening_area;
}

static pw_status judge(const pw_worksheet_input *input, pw_worksheet *w, pw_err *err)
{
  const pw_compare *c = input->compare;
  pw_date date = 0;
  pw_rebate_count count;
  pw_status status = pw_date_read(c->job->house.install_date, &date, err);
  if (status == PW_OK)
    status =
        pw_rebate_count_of(c, input->package, input->program, input->zone, date, &count, err);
  if (status != PW_OK) return status;
  w->result = count.result;
  memcpy(w->only, count.counted, sizeof w->only);
  w->conditioned = count.conditioned;
  pw_claim claim = {0};
  status = pw_rebate_cost(c, input->package, &count, &claim.cost, err);
  if (status != PW_OK) return status;
  for (size_t i = 0; i < c->n_opening; i++) {
    if (!count.counted[i]) continue;
    claim.n_opening += c->job->opening[i].quantity;
    claim.area += c->job->opening[i].quantity * worksheet_area(input, i);
  }
  return pw_program_amount(input->program, input->zone, date, &w->result, &claim, &w->amount,
                           err);
}

pw_status pw_worksheet_build(const pw_worksheet_input *input, pw_worksheet *w, pw_err *err)
{
  memset(w, 0, sizeof *w);
  w->tongue = input->tongue;
  pw_status status = judge(input, w, err);
  if (status != PW_OK) return status;
  worksheet_people(input, w);
  worksheet_windows(input, w);
  worksheet_claim(input, w);
  worksheet_papers(input, w);
  if (!w->lost) return PW_OK;
  pw_worksheet_free(w);
  return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the worksheet");
}

void pw_worksheet_free(pw_worksheet *w)
{
  if (!w) return;
  free(w->field);
  memset(w, 0, sizeof *w);
}

/* How a blank is marked, by who has to fill it. */
static const char *blank(pw_field_origin origin)
{
  return origin == PW_FIELD_LABEL ? "from label" : "";
}

pw_status pw_worksheet_csv(const pw_worksheet *w, FILE *f, pw_err *err)
{
  static const char *const origin[] = {"label", "computed", "typed", "document", "signature"};
  fputs("block,mark,field,value,origin,note\n", f);
  for (size_t i = 0; i < w->n; i++) {
    const pw_field *field = &w->field[i];
    const char *const cell[] = {
        field->block,          field->mark,
        field->name,           field->value[0] ? field->value : blank(field->origin),
        origin[field->origin], field->note};
    for (size_t k = 0; k < sizeof cell / sizeof cell[0]; k++) {
      if (k) fputc(',', f);
      pw_csv_cell(f, cell[k]);
    }
    fputc('\n', f);
  }
  return pw_text_written(f, "the worksheet", err);
}
