/* What a room's name says about sleeping in it. */
#ifndef JOB_ROOM_NAME_H
#define JOB_ROOM_NAME_H

typedef enum job_room {
  JOB_ROOM_OTHER = 0,
  JOB_ROOM_SLEEPS, /* bedroom, nursery, guest, dormitorio ...: counts as a sleeping room */
  JOB_ROOM_ASKS    /* den, office, basement, master bath ...: may be one */
} job_room;

/* Letters of either case; words by their beginning ("Bedrm 2", "MBR"). */
job_room job_room_read(const char *name);

#endif
