#include "job/sections.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "job/section_file.h"

typedef struct reading {
  pw_named_section *list;
  size_t n, room;
} reading;

static pw_status add(reading *r, const char *name, pw_err *err)
{
  if (!name[0]) return PW_OK;
  for (size_t i = 0; i < r->n; i++)
    if (strcmp(r->list[i].name, name) == 0) return PW_OK;
  if (r->n == r->room) {
    size_t room = r->room ? 2 * r->room : 8;
    pw_named_section *list = realloc(r->list, room * sizeof *list);
    if (!list) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for sections");
    r->list = list;
    r->room = room;
  }
  pw_named_section *s = &r->list[r->n];
  memset(s, 0, sizeof *s);
  snprintf(s->name, sizeof s->name, "%s", name);
  pw_status status = pw_section_read(name, 0, &s->section, err);
  if (status == PW_OK) r->n++;
  return status;
}

pw_status pw_sections_read(const pw_job *job, pw_named_section **list, size_t *n, pw_err *err)
{
  reading r = {0};
  pw_status status = PW_OK;
  for (size_t i = 0; status == PW_OK && i < job->n_opening; i++)
    status = add(&r, job->opening[i].existing_section, err);
  for (size_t i = 0; status == PW_OK && i < job->n_frame_line; i++) {
    const pw_frame_line *l = &job->frame_line[i];
    const char *const name[] = {l->section_sill, l->section_head, l->section_jamb,
                                l->section_meeting};
    for (size_t k = 0; status == PW_OK && k < sizeof name / sizeof name[0]; k++)
      status = add(&r, name[k], err);
  }
  if (status != PW_OK) {
    pw_sections_free(r.list, r.n);
    r = (reading){0};
  }
  *list = r.list;
  *n = r.n;
  return status;
}

void pw_sections_free(pw_named_section *list, size_t n)
{
  for (size_t i = 0; i < n; i++)
    pw_section_free(&list[i].section);
  free(list);
}
