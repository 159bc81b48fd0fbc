/* Fuzz: any bytes as a CSV file of the job, read by each reader. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/csv.h"
#include "job/survey.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The first byte picks the reader, the rest is the file. */
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  static pw_status (*const reader[])(const char *, pw_job *, pw_notes *, pw_err *) = {
      pw_house_read, pw_openings_read, pw_packages_read, pw_frame_lines_read};
  static char path[64];
  if (size == 0) return 0;
  if (!path[0]) snprintf(path, sizeof path, "/tmp/pw_fuzz_%ld.csv", (long)getpid());
  pw_csv csv;
  if (pw_csv_parse("fuzz.csv", (const char *)data + 1, size - 1, &csv, NULL) == PW_OK)
    pw_csv_free(&csv);
  FILE *f = fopen(path, "wb");
  if (!f) return 0;
  fwrite(data + 1, 1, size - 1, f);
  fclose(f);
  pw_job job = {0};
  pw_notes notes = {0};
  pw_err err = {0};
  pw_status status = reader[data[0] % 4](path, &job, &notes, &err);
  if (status != PW_OK && (!err.text[0] || strchr(err.text, '\n'))) abort();
  for (size_t i = 0; i < notes.n; i++) {
    char line[512];
    pw_notes_line(&notes.note[i], line, sizeof line);
  }
  pw_notes_free(&notes);
  pw_job_free(&job);
  return 0;
}
