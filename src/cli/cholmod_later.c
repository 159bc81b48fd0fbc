/* The sparse solver, opened when a section is solved by it. CHOLMOD brings a dozen libraries with it, and
 * a command that solves nothing should not wait for them. What the library libpanewright calls
 * is defined here for the program; whoever links the library links CHOLMOD itself.
 *
 * Without it cholmod_start fails, as for want of memory, and frame/factor says so. */
#include <cholmod.h>
#include <dlfcn.h>
#include <pthread.h>

#define TEXT_OF(x) #x
#define TEXT(x) TEXT_OF(x)

static struct {
  int (*start)(cholmod_common *);
  int (*finish)(cholmod_common *);
  cholmod_factor *(*analyze_p)(cholmod_sparse *, int *, int *, size_t, cholmod_common *);
  int (*factorize)(cholmod_sparse *, cholmod_factor *, cholmod_common *);
  cholmod_dense *(*solve)(int, cholmod_factor *, cholmod_dense *, cholmod_common *);
  int (*free_factor)(cholmod_factor **, cholmod_common *);
  int (*free_dense)(cholmod_dense **, cholmod_common *);
  int all;
} have;

/* POSIX lets a function come as a pointer to an object, C11 only through its bytes. */
static void get(void *library, const char *name, void *function)
{
  *(void **)function = dlsym(library, name);
  have.all = have.all && *(void **)function;
}

static void open_library(void)
{
  void *library = dlopen("libcholmod.so." TEXT(CHOLMOD_MAIN_VERSION), RTLD_NOW | RTLD_LOCAL);
  if (!library) return;
  have.all = 1;
  get(library, "cholmod_start", &have.start);
  get(library, "cholmod_finish", &have.finish);
  get(library, "cholmod_analyze_p", &have.analyze_p);
  get(library, "cholmod_factorize", &have.factorize);
  get(library, "cholmod_solve", &have.solve);
  get(library, "cholmod_free_factor", &have.free_factor);
  get(library, "cholmod_free_dense", &have.free_dense);
}

int cholmod_start(cholmod_common *common)
{
  static pthread_once_t once = PTHREAD_ONCE_INIT;
  return pthread_once(&once, open_library) == 0 && have.all && have.start(common);
}

/* The rest is called only after a start that did not fail. */
int cholmod_finish(cholmod_common *common) { return have.finish(common); }

cholmod_factor *cholmod_analyze_p(cholmod_sparse *a, int *order, int *set, size_t n_set,
                                  cholmod_common *common)
{
  return have.analyze_p(a, order, set, n_set, common);
}

int cholmod_factorize(cholmod_sparse *a, cholmod_factor *factor, cholmod_common *common)
{
  return have.factorize(a, factor, common);
}

cholmod_dense *cholmod_solve(int system, cholmod_factor *factor, cholmod_dense *b,
                             cholmod_common *common)
{
  return have.solve(system, factor, b, common);
}

int cholmod_free_factor(cholmod_factor **factor, cholmod_common *common)
{
  return have.free_factor(factor, common);
}

int cholmod_free_dense(cholmod_dense **dense, cholmod_common *common)
{
  return have.free_dense(dense, common);
}
