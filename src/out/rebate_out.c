/* The rebate of each package in words and as JSON. */
#include <stdio.h>
#include <string.h>

#include "out/json.h"
#include "out/range_out.h"
#include "out/wrap.h"

static const char *const verdict_word[] = {
    [PW_VERDICT_MEETS] = "meets",       [PW_VERDICT_FAILS] = "fails",
    [PW_VERDICT_NO_LABEL] = "no label", [PW_VERDICT_ENDED] = "ended",
    [PW_VERDICT_EARLY] = "not begun",   [PW_VERDICT_NO_DATE] = "no date"};

static void criterion_text(const pw_criterion_result *r, FILE *f)
{
  const pw_program_row *row = r->row;
  fprintf(f, "    label %s ", pw_metric_name(row->metric));
  if (r->holds < 0)
    fprintf(f, "is missing; wants %s %g %s\n", pw_op_sign(row->op), row->value, row->unit);
  else
    fprintf(f, "%.*f %s %g %s: %s\n", row->step < 0.05 ? 2 : 1, r->label, pw_op_sign(row->op),
            row->value, row->unit, r->holds ? "holds" : "does not hold");
}

const char *pw_program_said(const pw_tongue *tongue, const pw_program_result *result,
                            char text[PW_MESSAGE_TEXT])
{
  char more[PW_MESSAGE_TEXT];
  pw_message_text(tongue, &result->says, text, PW_MESSAGE_TEXT);
  size_t n = strlen(text);
  if (result->counted.number)
    snprintf(text + n, PW_MESSAGE_TEXT - n, "; %s",
             pw_message_text(tongue, &result->counted, more, sizeof more));
  return text;
}

void pw_rebate_text(const pw_compare *c, const pw_rebate rebate[], FILE *f)
{
  const pw_program_row *first = NULL;
  for (size_t p = 0; !first && p < c->n_package; p++)
    if (rebate[p].result.n_criterion) first = rebate[p].result.criterion[0].row;
  fprintf(f, "\nRebate%s%s%s%s, by the values on the label\n", first ? ": " : "",
          first ? first->program : "", first && first->edition[0] ? ", edition " : "",
          first ? first->edition : "");
  for (size_t p = 0; p < c->n_package; p++) {
    const pw_rebate *r = &rebate[p];
    char lead[60], text[PW_MESSAGE_TEXT];
    snprintf(lead, sizeof lead, "  %.40s: ", c->rated.package_set[p].name);
    pw_wrap(f, lead, pw_program_said(NULL, &r->result, text), 100);
    for (size_t i = 0; i < r->result.n_criterion; i++) {
      const pw_program_row *row = r->result.criterion[i].row;
      /* NOLINTNEXTLINE(clang-analyzer-core.NullDereference): every criterion has its row */
      int counts = !row->group[0] || strcmp(row->group, "always") == 0 ||
                   strcmp(row->group, r->result.group) == 0;
      if (counts) criterion_text(&r->result.criterion[i], f);
    }
    for (size_t i = 0; r->result.verdict == PW_VERDICT_MEETS && i < r->amount.n_line; i++)
      fprintf(f, "    %s = $%.2f\n",
              pw_message_text(NULL, &r->amount.line[i].says, text, sizeof text),
              r->amount.line[i].value);
    fprintf(f, "    taken off the price: $%.2f\n", r->amount.total);
  }
}

json_t *pw_rebate_json(const pw_rebate *rebate)
{
  char text[PW_MESSAGE_TEXT];
  json_t *o = json_object(), *lines = json_array();
  pw_json_set_text(o, "verdict", verdict_word[rebate->result.verdict]);
  pw_json_set_text(o, "text", pw_program_said(NULL, &rebate->result, text));
  pw_json_set_text(o, "group", rebate->result.group);
  pw_json_set(o, "amount", rebate->amount.total);
  for (size_t i = 0; i < rebate->amount.n_line; i++) {
    json_t *line = json_object();
    pw_json_set_text(line, "text",
                     pw_message_text(NULL, &rebate->amount.line[i].says, text, sizeof text));
    pw_json_set(line, "value", rebate->amount.line[i].value);
    json_array_append_new(lines, line);
  }
  json_object_set_new(o, "lines", lines);
  return o;
}
