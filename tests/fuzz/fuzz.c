/* The way in for libFuzzer (and AFL++'s driver), and what the targets share. */
#define _GNU_SOURCE /* memfd_create */
#include "fuzz.h"

#include <gsl/gsl_errno.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include "out/json.h"

int LLVMFuzzerInitialize(int *argc, char ***argv);
int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static const struct {
  const char *name;
  void (*run)(const char *text, size_t size);
} target[] = {
#define TARGET(name, share) {#name, fuzz_##name},
#include "targets.def"
#undef TARGET
};
enum { N_TARGET = sizeof target / sizeof target[0] };

static size_t chosen = N_TARGET;
static char folder[64];

static void leave(void)
{
  char command[96];
  snprintf(command, sizeof command, "rm -rf '%s'", folder);
  if (folder[0] && system(command) != 0) fputs("fuzz: a folder stays\n", stderr);
}

int LLVMFuzzerInitialize(int *argc, char ***argv)
{
  (void)argc;
  const char *slash = strrchr((*argv)[0], '/'), *name = slash ? slash + 1 : (*argv)[0];
  for (chosen = 0; chosen < N_TARGET && strcmp(target[chosen].name, name) != 0;)
    chosen++;
  if (chosen == N_TARGET) {
    fprintf(stderr, "fuzz: no target is called %s\n", name);
    exit(2);
  }
  gsl_set_error_handler_off();
  pw_json_watch();
  return 0;
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
  char *text = malloc(size ? size : 1);
  if (!text) return 0;
  if (size) memcpy(text, data, size);
  target[chosen].run(text, size);
  free(text);
  return 0;
}

void fuzz_said(pw_status status, const pw_err *err)
{
  if (status == PW_OK) return;
  if (!err->text[0]) abort();
  for (const char *c = err->text; *c; c++)
    if ((unsigned char)*c < ' ' || *c == 127) abort();
}

void fuzz_notes(pw_notes *notes)
{
  for (size_t i = 0; i < notes->n; i++) {
    char line[512];
    pw_notes_line(&notes->note[i], line, sizeof line);
    if (strchr(line, '\n')) abort();
  }
  pw_notes_free(notes);
}

const char *fuzz_file(const char *text, size_t size)
{
  static char path[32];
  static int fd = -1;
  if (fd < 0) {
    fd = memfd_create("fuzz", 0);
    snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
  }
  if (fd < 0 || ftruncate(fd, 0) != 0 || pwrite(fd, text, size, 0) != (ssize_t)size) abort();
  return path;
}

const char *fuzz_folder(void)
{
  if (folder[0]) return folder;
  snprintf(folder, sizeof folder, "%s/pw_fuzz_XXXXXX",
           access("/dev/shm", W_OK) == 0 ? "/dev/shm" : "/tmp");
  if (!mkdtemp(folder)) abort();
  atexit(leave);
  return folder;
}

char *fuzz_string(const char *text, size_t size)
{
  char *s = malloc(size + 1);
  if (!s) abort();
  memcpy(s, text, size);
  s[size] = '\0';
  return s;
}

pw_job fuzz_small_job(void)
{
  static pw_opening opening[2];
  static pw_package package[2];
  opening[0] =
      (pw_opening){.tag = "A1", .quantity = 1, .operator_insert = PW_SLIDER, .screen = 1};
  opening[1] = (pw_opening){.tag = "A2", .quantity = 2, .operator_insert = PW_FIXED};
  package[0] = (pw_package){.name = "good"};
  package[1] = (pw_package){.name = "best"};
  return (pw_job){.n_opening = 2, .n_package = 2, .opening = opening, .package = package};
}
