#include "out/subprocess.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

enum { IN = 0, OUT, SAID, N_PIPE };

/* Exit status by which a shell, too, says that a program is not there. */
enum { NOT_THERE = 127 };

static void close_pipes(int pipes[N_PIPE][2])
{
  for (int i = 0; i < N_PIPE; i++)
    for (int end = 0; end < 2; end++)
      if (pipes[i][end] >= 0) {
        close(pipes[i][end]);
        pipes[i][end] = -1;
      }
}

static pw_status open_pipes(int pipes[N_PIPE][2], pw_err *err)
{
  for (int i = 0; i < N_PIPE; i++)
    pipes[i][0] = pipes[i][1] = -1;
  for (int i = 0; i < N_PIPE; i++)
    if (pipe(pipes[i]) != 0) {
      pw_status status = pw_fail(err, PW_E_IO, NULL, "pipe: %s", strerror(errno));
      close_pipes(pipes);
      return status;
    }
  return PW_OK;
}

static void become(const char *const argv[], int pipes[N_PIPE][2])
{
  dup2(pipes[IN][0], 0);
  dup2(pipes[OUT][1], 1);
  dup2(pipes[SAID][1], 2);
  close_pipes(pipes);
  signal(SIGPIPE, SIG_DFL);
  execvp(argv[0], (char *const *)(size_t)argv); /* POSIX takes char *const[], changes nothing */
  _exit(NOT_THERE);
}

/* Appends what a read gave. Returns 0 when there is no memory. */
static int keep(pw_subprocess_result *r, const char *text, size_t n)
{
  char *bigger = realloc(r->out, r->size + n + 1);
  if (!bigger) return 0;
  r->out = bigger;
  memcpy(r->out + r->size, text, n);
  r->size += n;
  r->out[r->size] = '\0';
  return 1;
}

static void keep_said(pw_subprocess_result *r, const char *text, size_t n)
{
  size_t have = strlen(r->said);
  if (n > sizeof r->said - 1 - have) n = sizeof r->said - 1 - have;
  memcpy(r->said + have, text, n);
  r->said[have + n] = '\0';
}

static void shut(int *fd)
{
  close(*fd);
  *fd = -1;
}

/* Feeds and reads at once, so that neither side waits for the other with a full pipe. */
static int exchange(int pipes[N_PIPE][2], const char *input, size_t size,
                    pw_subprocess_result *r)
{
  size_t done = 0;
  int memory = keep(r, "", 0);
  fcntl(pipes[IN][1], F_SETFL, O_NONBLOCK);
  if (size == 0) shut(&pipes[IN][1]);
  while (pipes[OUT][0] >= 0 || pipes[SAID][0] >= 0) {
    struct pollfd p[N_PIPE] = {
        {pipes[IN][1], POLLOUT, 0}, {pipes[OUT][0], POLLIN, 0}, {pipes[SAID][0], POLLIN, 0}};
    if (poll(p, N_PIPE, -1) < 0 && errno != EINTR) break;
    if (p[IN].revents) {
      ssize_t n = write(pipes[IN][1], input + done, size - done);
      if (n > 0) done += (size_t)n;
      if (done == size || (n < 0 && errno != EAGAIN && errno != EINTR)) shut(&pipes[IN][1]);
    }
    for (int i = OUT; i <= SAID; i++) {
      char chunk[16384];
      if (!p[i].revents) continue;
      ssize_t n = read(pipes[i][0], chunk, sizeof chunk);
      if (n > 0 && i == OUT)
        memory = memory && keep(r, chunk, (size_t)n);
      else if (n > 0)
        keep_said(r, chunk, (size_t)n);
      else if (n == 0 || errno != EINTR)
        shut(&pipes[i][0]);
    }
  }
  return memory;
}

pw_status pw_subprocess_run(const char *const argv[], const char *input, size_t size,
                            pw_subprocess_result *result, pw_err *err)
{
  int pipes[N_PIPE][2];
  memset(result, 0, sizeof *result);
  pw_status status = open_pipes(pipes, err);
  if (status != PW_OK) return status;
  pid_t pid = fork();
  if (pid == 0) become(argv, pipes);
  if (pid < 0) {
    status = pw_fail(err, PW_E_IO, NULL, "fork: %s", strerror(errno));
    close_pipes(pipes);
    return status;
  }
  shut(&pipes[IN][0]);
  shut(&pipes[OUT][1]);
  shut(&pipes[SAID][1]);
  struct sigaction ignore = {.sa_handler = SIG_IGN}, before;
  sigaction(SIGPIPE, &ignore, &before);
  int memory = exchange(pipes, input, size, result);
  close_pipes(pipes);
  sigaction(SIGPIPE, &before, NULL);
  int state = 0;
  while (waitpid(pid, &state, 0) < 0 && errno == EINTR)
    ;
  result->exit_status = WIFEXITED(state) ? WEXITSTATUS(state) : -1;
  if (!memory) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for what %s made", argv[0]);
  if (result->exit_status == NOT_THERE)
    return pw_fail(err, PW_E_LACK, NULL, "%s is not installed", argv[0]);
  return PW_OK;
}

void pw_subprocess_free(pw_subprocess_result *result)
{
  if (!result) return;
  free(result->out);
  result->out = NULL;
  result->size = 0;
}
