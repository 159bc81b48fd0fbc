#include "out/caution_out.h"

#include <string.h>

#include "out/json.h"
#include "out/remedy_list.h"
#include "out/width.h"
#include "out/wrap.h"
#include "window/escape.h"

enum { WIDE = 100 };

static const char *tag_of(const pw_job *job, int opening)
{
  return opening < 0 ? "whole job" : job->opening[opening].tag;
}

static void remedies(const pw_opening *o, const pw_fit *fit, FILE *f)
{
  pw_remedy_list list;
  pw_remedy_list_of(NULL, o, fit, &list);
  fprintf(f, "!!   %s\n", list.lead);
  for (size_t i = 0; i < list.n; i++)
    pw_wrap(f, "!!   - ", list.line[i], WIDE);
}

void pw_caution_banner(const pw_job *job, const pw_fit fit[], const pw_cautions *list, FILE *f)
{
  static const char bar[] = "!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!"
                            "!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!!";
  if (list->n_fail == 0) return;
  fprintf(f, "%s\n", bar);
  int last = -1, open = 0;
  for (size_t i = 0; i < list->n; i++) {
    const pw_caution *c = &list->caution[i];
    if (c->state != PW_CAUTION_FAIL) continue;
    open |= !c->agreed;
    char lead[80], text[PW_MESSAGE_TEXT];
    if (c->opening != last) {
      fprintf(f, "!! ESCAPE OPENING FAILS: %s %s\n", tag_of(job, c->opening),
              c->opening < 0 ? "" : job->opening[c->opening].room);
      pw_wrap(f, "!!   ", pw_message_word(NULL, PW_SAY_ESCAPE_WORDS), WIDE);
      if (c->opening >= 0) remedies(&job->opening[c->opening], &fit[c->opening], f);
      fputs("!!   The figures:\n", f);
    }
    if (c->opening != last && c->agreed) {
      pw_wrap(f, "!!   The official's word, as the job says: ",
              job->opening[c->opening].official_word, WIDE);
    }
    last = c->opening;
    snprintf(lead, sizeof lead, "!!   %s ", c->id);
    pw_wrap(f, lead, pw_message_text(NULL, &c->finding, text, sizeof text), WIDE);
  }
  fputs(open ? "!! Do not order these before the building official has agreed.\n"
             : "!! Ordered on the official's word alone: keep it with the permit.\n",
        f);
  fprintf(f, "%s\n", bar);
}

json_t *pw_remedies_json(const pw_opening *opening, const pw_fit *fit)
{
  static const struct {
    unsigned bit;
    const char *word;
  } lack[] = {{PW_LACKS_AREA, "area"},
              {PW_LACKS_WIDTH, "width"},
              {PW_LACKS_HEIGHT, "height"},
              {PW_LACKS_BOTTOM, "bottom"}};
  pw_remedy r[PW_REMEDIES_MAX];
  json_t *all = json_array();
  size_t n = pw_escape_remedies(opening, fit, r);
  for (size_t i = 0; i < n; i++) {
    json_t *o = json_object(), *missing = json_array();
    pw_json_set_text(o, "what", pw_message_word(NULL, r[i].what));
    pw_json_set(o, "order_width_m", r[i].order_width);
    pw_json_set(o, "order_height_m", r[i].order_height);
    pw_json_set(o, "clear_width_m", r[i].clear.width);
    pw_json_set(o, "clear_height_m", r[i].clear.height);
    pw_json_set(o, "clear_area_m2", r[i].clear.area);
    if (r[i].clear.bottom >= 0.0) pw_json_set(o, "bottom_m", r[i].clear.bottom);
    json_object_set_new(o, "passes", json_boolean(r[i].lacks == 0));
    for (size_t k = 0; k < sizeof lack / sizeof lack[0]; k++)
      if (r[i].lacks & lack[k].bit) json_array_append_new(missing, json_string(lack[k].word));
    json_object_set_new(o, "lacks", missing);
    json_array_append_new(all, o);
  }
  return all;
}

void pw_tag_lead(char lead[], size_t size, const char *before, const char *tag, int columns)
{
  int gap = columns - (int)pw_width(tag, strlen(tag));
  snprintf(lead, size, "%s%s%*s ", before, tag, gap > 0 ? gap : 0, "");
}

void pw_caution_text(const pw_job *job, const pw_cautions *list, int all, FILE *f)
{
  static const char *const heading[] = {"",
                                        "Life safety",
                                        "Health",
                                        "Glass that may hurt",
                                        "Structure, water, wind, fire",
                                        "Life of the product",
                                        "Law and paper"};
  int rank = 0, left_out = 0, widest = 9;
  for (size_t i = 0; i < list->n; i++) {
    const char *tag = tag_of(job, list->caution[i].opening);
    int w = (int)pw_width(tag, strlen(tag));
    if (w > widest) widest = w;
  }
  fputs("\nCautions\n", f);
  for (size_t i = 0; i < list->n; i++) {
    const pw_caution *c = &list->caution[i];
    if (!all && c->state == PW_CAUTION_REMIND) {
      left_out++;
      continue;
    }
    if (c->rank != rank) fprintf(f, " %s\n", heading[c->rank]);
    rank = c->rank;
    char state[16], before[PW_TAG_MAX + 32], lead[PW_TAG_MAX + 48], text[PW_MESSAGE_TEXT + 200],
        said[PW_MESSAGE_TEXT];
    snprintf(state, sizeof state, "  %-6s ", pw_caution_state_name(c->state));
    pw_tag_lead(before, sizeof before, state, tag_of(job, c->opening), widest);
    snprintf(lead, sizeof lead, "%s%-4s ", before, c->id);
    pw_message_text(NULL, &c->finding, said, sizeof said);
    size_t end = strlen(said);
    int closed = end && strchr(".?!", said[end - 1]) != NULL;
    snprintf(text, sizeof text, "%s%s [%s]", said, closed ? "" : ".", c->source);
    pw_wrap(f, lead, text, WIDE);
  }
  if (left_out)
    fprintf(f, " %d reminders that hold for every such job are left out (--all prints them).\n",
            left_out);
  fprintf(f, " %s\n", pw_message_word(NULL, PW_SAY_CAUTION_CLOSING));
}

json_t *pw_caution_json(const pw_job *job, const pw_cautions *list)
{
  char text[PW_MESSAGE_TEXT];
  json_t *all = json_array();
  for (size_t i = 0; i < list->n; i++) {
    const pw_caution *c = &list->caution[i];
    json_t *o = json_object();
    pw_json_set_text(o, "id", c->id);
    pw_json_set_text(o, "topic", c->topic);
    json_object_set_new(o, "rank", json_integer(c->rank));
    pw_json_set_text(o, "state", pw_caution_state_name(c->state));
    if (c->opening < 0)
      json_object_set_new(o, "opening", json_null());
    else
      pw_json_set_text(o, "opening", tag_of(job, c->opening));
    pw_json_set_text(o, "finding", pw_message_text(NULL, &c->finding, text, sizeof text));
    pw_json_set_text(o, "source", c->source);
    pw_json_set_text(o, "how_known", c->how_known);
    pw_json_set_text(o, "decides", c->defer_to);
    json_array_append_new(all, o);
  }
  return all;
}

void pw_notes_head(const pw_notes *notes, FILE *f)
{
  char line[512];
  int any = 0;
  for (size_t i = 0; notes && i < notes->n; i++) {
    if (notes->note[i].kind != PW_NOTE_UNKNOWN) continue;
    if (!any++) fputs("Left out, because no column or item has this name\n", f);
    pw_notes_line(&notes->note[i], line, sizeof line);
    pw_wrap(f, "  ", line, WIDE);
  }
  if (any) fputc('\n', f);
}

void pw_notes_text(const pw_notes *notes, FILE *f)
{
  static const char *const heading[] = {"\nTaken for granted where the job says nothing\n",
                                        "\nRead, but look again\n"};
  char line[512];
  for (int kind = PW_NOTE_WARNING; kind >= PW_NOTE_DEFAULT; kind--) {
    int any = 0;
    for (size_t i = 0; notes && i < notes->n; i++) {
      if (notes->note[i].kind != (pw_note_kind)kind) continue;
      if (!any) fputs(heading[kind], f);
      any = 1;
      pw_notes_line(&notes->note[i], line, sizeof line);
      pw_wrap(f, "  ", line, WIDE);
    }
  }
  if (notes && notes->lost) fputs("  (some are missing: out of memory)\n", f);
}

json_t *pw_notes_json(const pw_notes *notes)
{
  json_t *all = json_array();
  char line[512];
  for (size_t i = 0; notes && i < notes->n; i++) {
    const pw_note *n = &notes->note[i];
    json_t *o = json_object();
    static const char *const kind[] = {"default", "warning", "unknown"};
    pw_json_set_text(o, "kind", kind[n->kind]);
    pw_json_set_text(o, "file", n->file);
    json_object_set_new(o, "line", json_integer(n->line));
    if (n->kind == PW_NOTE_DEFAULT) {
      pw_json_set_text(o, "item", n->what);
      pw_json_set_text(o, "value", n->value);
      json_object_set_new(o, "rows", json_integer(n->count));
      pw_json_set_text(o, "where", n->where);
    }
    pw_notes_line(n, line, sizeof line);
    pw_json_set_text(o, "text", line);
    json_array_append_new(all, o);
  }
  return all;
}
