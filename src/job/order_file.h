/* An order list (order.csv, or what fit --order writes) that was sent earlier, read back for a change order. */
#ifndef JOB_ORDER_FILE_H
#define JOB_ORDER_FILE_H

#include "job/csv.h"
#include "job/version.h"

/* Its columns. Those up to may_order must stand in it. */
typedef enum pw_order_column {
  PW_ORDER_TAG = 0,
  PW_ORDER_QUANTITY,
  PW_ORDER_OPERATOR,
  PW_ORDER_WIDTH,
  PW_ORDER_HEIGHT,
  PW_ORDER_GLASS,
  PW_ORDER_TEMPERED,
  PW_ORDER_MAY,
  PW_ORDER_ROOM,
  PW_ORDER_HANDING,
  PW_ORDER_BASIS,
  PW_ORDER_SPACER,
  PW_ORDER_LINE,
  PW_ORDER_PACKAGE,
  PW_ORDER_PATTERN,
  PW_ORDER_TINT,
  PW_ORDER_GRILLES,
  PW_ORDER_GRILLE_PATTERN,
  PW_ORDER_GRILLE_BAR,
  PW_ORDER_SCREEN,
  PW_ORDER_PET_PANEL,
  PW_ORDER_COLOUR,
  PW_ORDER_HINGE,
  PW_ORDER_MAKER_NOTE,
  PW_ORDER_SHAPE,
  PW_ORDER_RISE,
  PW_ORDER_LEG_LEFT,
  PW_ORDER_LEG_RIGHT,
  PW_ORDER_PEAK,
  PW_ORDER_RADIUS,
  PW_ORDER_TEMPLATE,
  PW_ORDER_UNIT,
  PW_ORDER_UNIT_JOINT,
  PW_ORDER_MULLION,
  PW_ORDER_TUBES,
  PW_ORDER_PRESSURE,
  PW_ORDER_ALTITUDE,
  PW_ORDER_PLANT,
  PW_ORDER_LABEL_U,
  PW_ORDER_LABEL_SHGC,
  PW_ORDER_CERTIFICATE,
  PW_ORDER_COMPARED, /* those before are what a maker builds by; the rest is not compared */
  PW_ORDER_DWELLING = PW_ORDER_COMPARED,
  PW_ORDER_PRINTED,
  PW_ORDER_FILES,
  PW_ORDER_KNOWN
} pw_order_column;

typedef struct pw_order_file {
  pw_csv csv;
  int column[PW_ORDER_KNOWN]; /* of csv, or -1 */
  char printed[11];           /* "" when it does not say */
  char files
      [PW_VERSION_MAX]; /* the state of the job's files it was made from, "" when it does not say */
} pw_order_file;

/* Reads a file. To be freed when PW_OK.
 *
 * Status    PW_OK; PW_E_DATA not such a list (line, column, what was found, what is accepted): a column missing or unknown
 *           to it that reads like an order's, a size, a count, a yes or no that is none, a tag twice in a dwelling, rows of
 *           several states of the files; as pw_csv_read */
pw_status pw_order_read(const char *path, pw_order_file *order, pw_err *err);

/* The same from memory. */
pw_status pw_order_parse(const char *name, const char *text, size_t size, pw_order_file *order,
                         pw_err *err);
void pw_order_free(pw_order_file *order);

/* A cell. Of a column that the list has no need of (no row has a shape, say): what stands there then, "none", "no". */
const char *pw_order_at(const pw_order_file *order, size_t row, pw_order_column column);

/* The row of a tag in a dwelling, or -1. */
int pw_order_row(const pw_order_file *order, const char *dwelling, const char *tag);

#endif
