#include "job/field_list.h"

void job_field_lists(job_field_list list[JOB_FILES])
{
  static const struct {
    const char *file;
    int items;
    size_t (*fields)(job_field f[]);
  } of[JOB_FILES] = {
      {"job.csv", 1, job_house_fields},         {"openings.csv", 0, job_openings_fields},
      {"packages.csv", 0, job_packages_fields}, {"labels.csv", 0, job_labels_fields},
      {"prices.csv", 0, job_prices_fields},     {"firm.csv", 1, job_firm_fields},
      {"bills.csv", 0, job_bills_fields}};
  for (size_t i = 0; i < JOB_FILES; i++) {
    list[i].file = of[i].file;
    list[i].items = of[i].items;
    list[i].n = of[i].fields(list[i].field);
  }
}
