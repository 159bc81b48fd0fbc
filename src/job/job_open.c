#include "job/job_open.h"

#include <stdlib.h>
#include <string.h>

#include "job/climate_of_job.h"
#include "job/sections.h"
#include "job/survey.h"

static pw_status read_climate(const char *dir, pw_open_job *open, pw_err *err)
{
  const pw_house_facts *house = &open->job.house;
  pw_err why = {0};
  pw_status status = pw_job_climate(house, dir, open->weather, open->climate, &why);
  if (status == PW_OK) return PW_OK;
  return pw_fail_at(err, status, "job.csv", house->climate_line, 2, "%.360s", why.text);
}

static pw_status read_code_place(pw_open_job *open, pw_err *err)
{
  const pw_house_facts *house = &open->job.house;
  pw_err why = {0};
  pw_code_limits limits;
  int line = house->code_zone_line;
  pw_status status = pw_job_code_place(house, open->weather, &open->code_place, &why);
  if (status == PW_OK) {
    line = house->code_edition_line;
    status = pw_code_limits_find(&open->code_place, &limits, &why);
  }
  if (status == PW_OK) return PW_OK;
  return pw_fail_at(err, PW_E_DATA, "job.csv", line, 2, "%s: %.340s",
                    why.field ? why.field : "", why.text);
}

static pw_status read_tariff(pw_open_job *open, pw_err *err)
{
  const char *path = open->job.house.tariff;
  if (!path[0]) return PW_OK;
  open->tariffs = calloc(1, sizeof *open->tariffs);
  if (!open->tariffs) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the tariff");
  pw_status status = pw_tariff_read(path, open->tariffs, &open->notes, err);
  if (status == PW_OK) pw_tariff_by_fuel(open->tariffs, open->tariff);
  return status;
}

pw_status pw_job_open_dwelling(const char *dir, const char *dwelling, pw_open_job *open,
                               pw_err *err)
{
  memset(open, 0, sizeof *open);
  open->weather = malloc(sizeof *open->weather);
  pw_status status =
      open->weather ? PW_OK : pw_fail(err, PW_E_NOMEM, NULL, "no memory for the weather");
  if (status == PW_OK)
    status = pw_job_read_dwelling(dir, dwelling, &open->job, &open->notes, err);
  if (status == PW_OK) status = read_climate(dir, open, err);
  if (status == PW_OK) status = read_code_place(open, err);
  if (status == PW_OK)
    status = pw_sections_read(&open->job, &open->section, &open->n_section, err);
  if (status == PW_OK) status = read_tariff(open, err);
  if (status != PW_OK) pw_job_close(open);
  return status;
}

pw_status pw_job_open(const char *dir, pw_open_job *open, pw_err *err)
{
  return pw_job_open_dwelling(dir, NULL, open, err);
}

void pw_job_close(pw_open_job *open)
{
  if (!open) return;
  pw_job_free(&open->job);
  pw_notes_free(&open->notes);
  free(open->weather);
  pw_sections_free(open->section, open->n_section);
  free(open->tariffs);
  memset(open, 0, sizeof *open);
}

pw_compare_options pw_job_options(const pw_open_job *open, pw_year_method method)
{
  return (pw_compare_options){.method = method,
                              .code_place = open->code_place,
                              .tariff = open->tariffs ? open->tariff : NULL,
                              .section = open->section,
                              .n_section = open->n_section};
}
