/* Windows a row at a time, one core: read, rated, lived with. */
#include "bench.h"

#include <csv.h>
#include <stdlib.h>

#include "job/batch_example.h"
#include "job/batch_rows.h"
#include "out/batch_out.h"

enum { ROWS = 2000 };

typedef struct rows {
  char *text; /* owned */
  size_t size, begin[ROWS + 1];
  pw_batch_reader *reader;
  pw_batch_hand *hand;
  pw_lines out;
  int read_only, failed;
} rows;

static int make_rows(rows *r)
{
  r->text = malloc((size_t)ROWS * PW_BATCH_EXAMPLE_MAX);
  for (unsigned long i = 0; r->text && i < ROWS; i++) {
    r->begin[i] = r->size;
    r->size += pw_batch_example(i, r->text + r->size);
  }
  r->begin[ROWS] = r->size;
  return r->text != NULL;
}

static void through(void *data)
{
  rows *r = data;
  pw_batch_figures figures;
  r->out.n = 0;
  for (size_t i = 0; i < ROWS; i++) {
    pw_batch_item item;
    const char *id = "";
    double away = 0.0;
    pw_status s = pw_batch_read(r->hand, r->text + r->begin[i], r->begin[i + 1] - r->begin[i],
                                (long)i, &item, &id, &away, NULL);
    if (s == PW_OK && !r->read_only) s = pw_batch_solve(&item, &figures, NULL);
    if (s == PW_OK && !r->read_only) pw_batch_print(&r->out, id, away, &figures);
    r->failed |= s != PW_OK;
  }
}

/* The rows cut into cells and nothing else: what reading cannot go below here. */
static void libcsv_alone(void *data)
{
  rows *r = data;
  struct csv_parser p;
  if (csv_init(&p, CSV_STRICT) != 0) return;
  r->failed |= csv_parse(&p, r->text, r->size, NULL, NULL, NULL) != r->size;
  csv_fini(&p, NULL, NULL, NULL);
  csv_free(&p);
}

void bench_batch(bench *b)
{
  static const struct {
    const char *name;
    pw_batch_energy energy;
    int read_only;
    double bound;
    const char *held;
  } part[] = {
      {"batch row read", PW_BATCH_NO_ENERGY, 1, 0.0, "libcsv alone on the same rows"},
      {"batch row rated, no energy", PW_BATCH_NO_ENERGY, 0, 0.0, ""},
      {"batch row with monthly energy", PW_BATCH_MONTHLY, 0, 25e-6,
       "40 000 a second, one core"},
      {"batch row with the hourly year", PW_BATCH_HOURLY, 0, 1.0 / 3000.0,
       "3 000 a second, one core"},
  };
  rows r = {0};
  char header[PW_BATCH_EXAMPLE_MAX];
  header[pw_batch_example_header(header)] = '\0';
  if (!make_rows(&r)) return;
  for (size_t i = 0; i < sizeof part / sizeof part[0]; i++) {
    if (pw_batch_reader_new(header, part[i].energy, &r.reader, NULL, NULL) != PW_OK) break;
    r.hand = pw_batch_hand_new(r.reader);
    r.read_only = part[i].read_only;
    if (r.hand) {
      double peer = r.read_only ? bench_cpu(libcsv_alone, &r) / ROWS : 0.0;
      double cpu = bench_cpu(through, &r);
      bench_give(
          b, &(bench_row){part[i].name, "row", ROWS, cpu, part[i].bound, peer, part[i].held});
    }
    pw_batch_hand_free(r.hand);
    pw_batch_reader_free(r.reader);
  }
  pw_lines_free(&r.out);
  free(r.text);
}
