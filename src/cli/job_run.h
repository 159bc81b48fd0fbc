/* A job folder opened and compared, with its ranges and rebates, as several commands want it. */
#ifndef CLI_JOB_RUN_H
#define CLI_JOB_RUN_H

#include "cli/command.h"
#include "job/job_open.h"
#include "out/compare_out.h"

typedef struct cli_job {
  pw_open_job open;
  pw_year_method method;
  int lanes;                 /* as asked for, 0 not */
  pw_compare *compare;       /* owned, like what follows */
  pw_compare_sound *sound;   /* NULL: not asked */
  pw_range *range;           /* NULL: not asked */
  pw_compare_phases *phases; /* NULL: not asked */
  pw_compare_tight *tight;   /* NULL: not asked */
  pw_compare_airing *airing; /* NULL: not asked */
  pw_rebate *rebate;         /* of each package; NULL: no program given */
  pw_program program;
  pw_compare_frame frame; /* borrows from this struct: do not copy it */
} cli_job;

/* Opens the folder named first, takes the part that the options name (job_view.h) and runs the
 * comparison. On failure *job owns nothing; a zeroed one may be freed. */
pw_status cli_job_run(const cli_args *args, pw_year_method method, cli_job *job, pw_err *err);
/* The same of the dwelling so named; NULL the one house, refused where the job holds several. tell:
 * unknown columns and items on standard error. */
pw_status cli_job_run_dwelling(const cli_args *args, const char *dwelling, int tell,
                               pw_year_method method, cli_job *job, pw_err *err);
/* The same with the openings marked left out standing as they are, as by action keep. */
pw_status cli_job_run_without(const cli_args *args, const unsigned char left_out[],
                              pw_year_method method, cli_job *job, pw_err *err);
void cli_job_free(cli_job *job);

/* What text and customer's pages tell beside the figures: the sound of every opening, what each phase costs and saves, how
 * far the habit of opening windows moves the year, what tighter windows save, cli_job_rebates. */
pw_status cli_job_parts(const cli_args *args, cli_job *job, pw_err *err);

/* Columns and items that no reader knows, a line each on standard error. */
void cli_tell_unknown(const pw_notes *notes);

/* --program, --zone: rebates of each package by its label, taken off the prices. Nothing without. */
pw_status cli_job_rebates(const cli_args *args, cli_job *job, pw_err *err);

/* --draws, --seed, --threads, --full, --beat, those that the command has: how sure the figures are. */
pw_status cli_job_range(const cli_args *args, cli_job *job, pw_err *err);

/* The same in two steps: what the options say, and the range by it, without progress of its own. */
pw_status cli_range_options(const cli_args *args, pw_range_options *options, pw_err *err);
pw_status cli_job_range_by(const cli_args *args, pw_range_options *options, cli_job *job,
                           pw_err *err);

/* Rows for option tables. */
#define CLI_DRAWS                                                                              \
  {                                                                                            \
    "draws", "N", "draws of the range (2048)"                                                  \
  }
#define CLI_SEED                                                                               \
  {                                                                                            \
    "seed", "S", "seed of the draws (1); printed with them"                                    \
  }
#define CLI_THREADS                                                                            \
  {                                                                                            \
    "threads", "N",                                                                            \
        "threads of the range (all cores); the figures are the same for any number"            \
  }
#define CLI_PROGRAM                                                                            \
  {                                                                                            \
    "program", "FILE", "take the rebate of a program file off the prices, by the label values" \
  }
#define CLI_ZONE                                                                               \
  {                                                                                            \
    "zone", "ZONE", "climate zone of the program, when it has several"                         \
  }

#endif
