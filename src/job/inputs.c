#include "job/inputs.h"

#include <pthread.h>
#include <stdlib.h>

static struct {
  struct file {
    dev_t device;
    ino_t inode;
  } * file; /* owned */
  size_t n, room;
} seen;
static pthread_mutex_t lock = PTHREAD_MUTEX_INITIALIZER;

static int has(const struct stat *file)
{
  for (size_t i = 0; i < seen.n; i++)
    if (seen.file[i].device == file->st_dev && seen.file[i].inode == file->st_ino) return 1;
  return 0;
}

int pw_inputs_has(const struct stat *file)
{
  pthread_mutex_lock(&lock);
  int known = has(file);
  pthread_mutex_unlock(&lock);
  return known;
}

static pw_status add(const struct stat *file, pw_err *err)
{
  if (!S_ISREG(file->st_mode) || has(file)) return PW_OK;
  if (seen.n == seen.room) {
    size_t room = seen.room ? 2 * seen.room : 16;
    void *bigger = realloc(seen.file, room * sizeof seen.file[0]);
    if (!bigger) return pw_fail(err, PW_E_NOMEM, NULL, "no memory for the list of inputs");
    seen.file = bigger;
    seen.room = room;
  }
  seen.file[seen.n++] = (struct file){file->st_dev, file->st_ino};
  return PW_OK;
}

static pw_status note(const struct stat *file, pw_err *err)
{
  pthread_mutex_lock(&lock);
  pw_status status = add(file, err);
  pthread_mutex_unlock(&lock);
  return status;
}

pw_status pw_inputs_note(int fd, pw_err *err)
{
  struct stat is;
  return fstat(fd, &is) == 0 ? note(&is, err) : PW_OK;
}

pw_status pw_inputs_note_path(const char *path, pw_err *err)
{
  struct stat is;
  return stat(path, &is) == 0 ? note(&is, err) : PW_OK;
}
