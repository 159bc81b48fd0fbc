/* The version: its one home (the Makefile reads it here). */
#ifndef PANEWRIGHT_VERSION_H
#define PANEWRIGHT_VERSION_H

#define PW_VERSION "0.1.0"

#endif
