/* A small invented job in a folder of its own, for tests of the files that stand beside packages.csv. */
#ifndef TESTS_JOB_FOLDER_H
#define TESTS_JOB_FOLDER_H

#include "support.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "job/job_open.h"
#include "job/survey.h"

static const char folder_job[] =
    "item,value\njob,Test\nclimate,\"Albuquerque, NM\"\nstate,NM\nfloor_area,1600 ft2\n"
    "year_built,1985\n";

/* A1 84 in united, A2 two of 84, A3 71 + 48 = 119 (70 5/16 and 47 1/2 rounded up), A4 66. */
static const char *const folder_opening[] = {
    "A1,Hall,1,N,fixed,,36,48", "A2,Den,2,S,slider,XO,48,36",
    "A3,Dining,1,W,slider,XO,70 5/16,47 1/2", "A4,Kitchen,1,E,casement,X,30,36"};
enum { FOLDER_OPENINGS = 4 };
static const char folder_openings_head[] =
    "tag,room,quantity,facing,operator,config,width_middle,height_middle";
static const char folder_packages[] =
    "package,glass,frame_line,label_u,label_shgc,certificate,price_per_opening,price_per_area\n"
    "good,3mm clear / 12.7mm air / 3mm clear,vinyl,0.30,0.33,K-1,$300 +- 20,$20\n"
    "best,3mm clear coat ag2@2 / 12.7mm argon 90% / 3mm clear,vinyl,,,,$400,$30\n";

static void folder_write(const char *dir, const char *name, const char *text)
{
  char path[256];
  snprintf(path, sizeof path, "%s/%s", dir, name);
  FILE *f = fopen(path, "w");
  assert_non_null(f);
  fputs(text, f);
  assert_int_equal(fclose(f), 0);
}

/* openings.csv with more columns at its end: a header, and cells of each opening (NULL: none); order[] is the
 * order of the rows, NULL as they stand. */
static void folder_openings(const char *dir, const char *head, const char *const cell[],
                            const size_t order[])
{
  char text[2048];
  int n = snprintf(text, sizeof text, "%s%s\n", folder_openings_head, head);
  for (size_t k = 0; k < FOLDER_OPENINGS; k++) {
    size_t i = order ? order[k] : k;
    n += snprintf(text + n, sizeof text - (size_t)n, "%s%s\n", folder_opening[i],
                  cell ? cell[i] : "");
  }
  folder_write(dir, "openings.csv", text);
}

static void folder_make(char dir[64])
{
  snprintf(dir, 64, "/tmp/panewright-test-XXXXXX");
  assert_non_null(mkdtemp(dir));
  folder_write(dir, "job.csv", folder_job);
  folder_write(dir, "packages.csv", folder_packages);
  folder_openings(dir, "", NULL, NULL);
}

static void folder_remove(const char *dir)
{
  DIR *d = opendir(dir);
  assert_non_null(d);
  for (struct dirent *e; (e = readdir(d)) != NULL;) {
    char path[400];
    snprintf(path, sizeof path, "%s/%s", dir, e->d_name);
    if (e->d_name[0] != '.') unlink(path);
  }
  closedir(d);
  rmdir(dir);
}

/* Reads the job; fails the test with the message when it is refused. */
static pw_job folder_read(const char *dir, pw_notes *notes)
{
  pw_job job;
  pw_err err = {0};
  if (pw_job_read(dir, &job, notes, &err) != PW_OK) fail_msg("%s", err.text);
  return job;
}

/* Reads a job that must be refused; every word of says must be in the message. */
static inline void folder_refused(const char *dir, const char *const says[], size_t n)
{
  pw_job job;
  pw_err err = {0};
  pw_status status = pw_job_read(dir, &job, NULL, &err);
  if (status == PW_OK) {
    pw_job_free(&job);
    fail_msg("taken, want a refusal with '%s'", says[0]);
  }
  for (size_t i = 0; i < n; i++)
    if (says[i] && !strstr(err.text, says[i]))
      fail_msg("'%s' is not in '%s'", says[i], err.text);
}

/* The folder of a test. */
static char dir[64];

static int set_up(void **state)
{
  (void)state;
  folder_make(dir);
  return 0;
}

static int tear_down(void **state)
{
  (void)state;
  folder_remove(dir);
  return 0;
}

#endif
