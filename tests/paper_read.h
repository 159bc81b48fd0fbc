/* Reads figures back from a document and holds them against the data they were rounded from. */
#ifndef TESTS_PAPER_READ_H
#define TESTS_PAPER_READ_H

#include <jansson.h>
#include <stddef.h>

/* Every <span class="fig"> with a key: its printed text against the JSON value that the key names,
 * converted and rounded here by its kind. Fails the test on the first that differs by more than half
 * its last digit; returns how many were read. */
size_t paper_figures_match(const char *html, const json_t *data);

/* Fails when a cell of a table of that class holds a digit outside such a span. */
void paper_cells_are_keyed(const char *html, const char *table_class);

/* Fails when an id stands twice, or a name is used that no id bears. */
void paper_ids_are_sound(const char *html);

/* 1 when tidy finds nothing to say; 0 when it does (printed); -1 when it is not installed. */
int paper_is_tidy(const char *html);

/* The next printed figure from *at on, "" at the end; *at steps past it. */
void paper_next_figure(const char **at, char text[32]);

#endif
