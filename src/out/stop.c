#include "out/stop.h"

#include <signal.h>
#include <stdatomic.h>
#include <stddef.h>
#include <sys/types.h>

static const int caught[] = {SIGINT, SIGTERM, SIGHUP};
enum { N_CAUGHT = sizeof caught / sizeof caught[0] };

static atomic_int held, asked, helper;
static _Atomic(void (*)(void)) clean_up;

static void end_by(int number)
{
  void (*clean)(void) = atomic_load(&clean_up);
  if (clean) clean();
  struct sigaction usual = {.sa_handler = SIG_DFL};
  sigemptyset(&usual.sa_mask);
  sigaction(number, &usual, NULL);
  raise(number);
}

static void on_signal(int number)
{
  int group = atomic_load(&helper);
  if (group > 0) kill(-(pid_t)group, SIGKILL);
  if (atomic_load(&held) > 0)
    atomic_store(&asked, number);
  else
    end_by(number);
}

void pw_stop_catch(void)
{
  struct sigaction now, ours = {.sa_handler = on_signal};
  sigemptyset(&ours.sa_mask);
  for (int i = 0; i < N_CAUGHT; i++)
    sigaddset(&ours.sa_mask, caught[i]);
  for (int i = 0; i < N_CAUGHT; i++)
    if (sigaction(caught[i], NULL, &now) == 0 && now.sa_handler != SIG_IGN)
      sigaction(caught[i], &ours, NULL);
  struct sigaction ignore = {.sa_handler = SIG_IGN};
  sigemptyset(&ignore.sa_mask);
  sigaction(SIGPIPE, &ignore, NULL);
  sigaction(SIGXFSZ, &ignore, NULL);
}

void pw_stop_hold(void) { atomic_fetch_add(&held, 1); }

void pw_stop_release(void)
{
  if (atomic_fetch_sub(&held, 1) != 1) return;
  int number = atomic_exchange(&asked, 0);
  if (number) end_by(number);
}

void pw_stop_helper(int group)
{
  atomic_store(&helper, group);
  if (group > 0 && atomic_load(&asked))
    kill(-(pid_t)group, SIGKILL); /* it came too late to be hit */
}

void pw_stop_clean(void (*clean)(void)) { atomic_store(&clean_up, clean); }
