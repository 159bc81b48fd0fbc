/* What windows are made of: spectra, curves, sections, build-ups, catalogues, and a house in one file. */
#include <stdlib.h>
#include <string.h>

#include "fuzz.h"
#include "job/catalogue_file.h"
#include "job/curve_file.h"
#include "job/house_file.h"
#include "job/section_file.h"
#include "job/spectrum_file.h"
#include "panewright/glazing.h"

void fuzz_spectrum(const char *text, size_t size)
{
  pw_measured measured;
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_spectrum_file_parse("fuzz.csv", text, size, &notes, &measured, &err), &err);
  fuzz_notes(&notes);
}

void fuzz_curve(const char *text, size_t size)
{
  pw_curve curve;
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_curve_file_parse("fuzz.csv", text, size, &notes, &curve, &err), &err);
  fuzz_notes(&notes);
}

void fuzz_section(const char *text, size_t size)
{
  pw_section section;
  pw_err err = {0};
  pw_status status = pw_section_parse("fuzz.csv", text, size, (int)(size & 1), &section, &err);
  fuzz_said(status, &err);
  if (status == PW_OK && pw_section_check(&section, &err) != PW_OK) abort();
  pw_section_free(&section);
}

void fuzz_house(const char *text, size_t size)
{
  pw_err err = {0};
  pw_house_file *file = malloc(sizeof *file);
  if (file) fuzz_said(pw_house_file_parse("fuzz.csv", text, size, file, &err), &err);
  free(file);
}

void fuzz_catalogue(const char *text, size_t size)
{
  pw_rank_catalogue catalogue;
  pw_notes notes = {0};
  pw_err err = {0};
  fuzz_said(pw_catalogue_parse("fuzz.csv", text, size, &catalogue, &notes, &err), &err);
  fuzz_notes(&notes);
}

/* Refused with a column inside the text, or read and said back. */
void fuzz_buildup(const char *bytes, size_t size)
{
  char *text = fuzz_string(bytes, size), printed[512];
  pw_buildup b, again;
  pw_err err = {0};
  pw_status status = pw_buildup_parse(text, &b, &err);
  fuzz_said(status, &err);
  if (status == PW_OK) {
    if (pw_buildup_print(&b, printed, sizeof printed, NULL) != PW_OK) abort();
    if (pw_buildup_parse(printed, &again, &err) != PW_OK) abort();
  } else if (err.column < 1 || (size_t)err.column > strlen(text) + 1) {
    abort();
  }
  free(text);
}
