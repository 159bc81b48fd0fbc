#include "out/stop.h"

#include <signal.h>
#include <stdatomic.h>
#include <stddef.h>
#include <sys/types.h>

static const int caught[] = {SIGINT, SIGTERM, SIGHUP};
enum { N_CAUGHT = sizeof caught / sizeof caught[0], HELPERS_MAX = 64 /* as many as threads */ };

static atomic_int held, asked, helper[HELPERS_MAX]; /* process groups, 0 none */
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
  for (int i = 0; i < HELPERS_MAX; i++) {
    int group = atomic_load(&helper[i]);
    if (group > 0) kill(-(pid_t)group, SIGKILL);
  }
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

int pw_stop_helper(int group)
{
  int place = 0, none = 0;
  while (place < HELPERS_MAX && !atomic_compare_exchange_strong(&helper[place], &none, group))
    none = 0, place++;
  if (atomic_load(&asked)) kill(-(pid_t)group, SIGKILL); /* it came too late to be hit */
  return place;
}

void pw_stop_helper_gone(int place)
{
  if (place < HELPERS_MAX) atomic_store(&helper[place], 0);
}

int pw_stop_asked(void) { return atomic_load(&asked) != 0; }

void pw_stop_clean(void (*clean)(void)) { atomic_store(&clean_up, clean); }
